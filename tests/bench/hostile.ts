// What hostile files cost: `npm run bench:hostile -- --mib 1024`. Files that never end where something of them should, each taken in by a
// process of its own, with its time and its most memory. Hostile files by the thousand: `npm run fuzz -- --files 100000`.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { endlessBundle, endlessFiles } from '../hostile/endless-files.ts';

const { values } = parseArgs({ options: { mib: { type: 'string', default: '1024' } } });
const mib = Number(values.mib);
const program = fileURLToPath(new URL('../steps/measured-ingest.ts', import.meta.url));

for (const [what, file] of Object.entries(endlessFiles)) {
  const folder = mkdtempSync(join(tmpdir(), 'dryhold-bench-'));
  try {
    const bundle = await endlessBundle(folder, file, mib * 2 ** 20);
    const { stdout, stderr } = spawnSync(process.execPath, [program, join(folder, 'store'), bundle], {
      encoding: 'utf8',
    });
    if (stdout === '') throw new Error(`${what}: ${stderr.trim()}`);
    const { rssMiB, ms, refusedFiles } = JSON.parse(stdout) as {
      rssMiB: number;
      ms: number;
      refusedFiles: { detail: string }[];
    };
    const told = refusedFiles.map(({ detail }) => detail).join('; ') || 'taken in';
    console.log(
      `${`${what}, ${mib} MiB`.padEnd(52)} ${(ms / 1000).toFixed(1).padStart(6)} s ${String(rssMiB).padStart(6)} MiB  ${told}`,
    );
    if (!told.includes(file.says)) process.exitCode = 1;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
