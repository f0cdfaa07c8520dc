import { mkdirSync, mkdtempSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { SimulatedFleet } from '../simulate/fleet.ts';
import { type WrittenBundle, writeBundle } from '../simulate/write-bundle.ts';
import { noteUnfinished } from '../store/whole-file.ts';

/** The folder, within that of the bundle, in which its files are written; names that begin with a dot are no bundle's. */
const asideName = '.unfinished-';

/**
 * Writes a fleet as a bundle whose files have their names only once all of them are whole: half a fleet would look like a
 * small one.
 *
 * @param outDir made where it is missing; files of the same names are replaced
 */
export async function writeSimulated(
  fleet: SimulatedFleet,
  outDir: string,
  onProgress?: (jobsWritten: number) => void,
): Promise<WrittenBundle> {
  mkdirSync(outDir, { recursive: true });
  for (const name of readdirSync(outDir))
    if (name.startsWith(asideName)) rmSync(join(outDir, name), { recursive: true, force: true });
  const aside = mkdtempSync(join(outDir, asideName));
  const written = noteUnfinished(aside);
  try {
    const bundle = await writeBundle(fleet, aside, onProgress);
    const names = readdirSync(aside);
    // None of an earlier bundle may stand beside those of this one.
    for (const name of names) rmSync(join(outDir, name), { force: true });
    for (const name of names) renameSync(join(aside, name), join(outDir, name));
    return bundle;
  } finally {
    rmSync(aside, { recursive: true, force: true });
    written();
  }
}
