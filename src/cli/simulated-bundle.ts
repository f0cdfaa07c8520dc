import { readdirSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { SimulatedFleet } from '../simulate/fleet.ts';
import { type WrittenBundle, writeBundle } from '../simulate/write-bundle.ts';
import { inAsideFolder } from '../store/aside-folder.ts';

/**
 * Writes a fleet as a bundle whose files have their names only once all of them are whole: half a fleet would look like a
 * small one.
 *
 * @param outDir made where it is missing; files of the same names are replaced
 */
export function writeSimulated(
  fleet: SimulatedFleet,
  outDir: string,
  onProgress?: (jobsWritten: number) => void,
): Promise<WrittenBundle> {
  return inAsideFolder(outDir, async (aside) => {
    const bundle = await writeBundle(fleet, aside, onProgress);
    const names = readdirSync(aside);
    // None of an earlier bundle may stand beside those of this one.
    for (const name of names) rmSync(join(outDir, name), { force: true });
    for (const name of names) renameSync(join(aside, name), join(outDir, name));
    return bundle;
  });
}
