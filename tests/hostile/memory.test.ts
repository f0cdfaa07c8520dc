import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { tempFolder } from '../store/temp-store.ts';
import { endlessBundle, endlessFiles } from './endless-files.ts';

const program = fileURLToPath(new URL('../steps/measured-ingest.ts', import.meta.url));

// Measured: 150 to 330 MiB; with files of 1 GiB no more (`npm run bench:hostile`).
test.each(Object.entries(endlessFiles))(
  '%s, of 300 MiB, is refused within 600 MiB of memory',
  async (_, file) => {
    const folder = tempFolder();
    const bundle = await endlessBundle(folder, file, 300 * 2 ** 20);
    const { stdout, stderr } = spawnSync(process.execPath, [program, join(folder, 'store'), bundle], {
      encoding: 'utf8',
    });
    expect(stderr).toBe('');
    const { rssMiB, sources, refusedFiles } = JSON.parse(stdout) as {
      rssMiB: number;
      sources: { file: string; rows_kept: number }[];
      refusedFiles: { detail: string }[];
    };
    expect(refusedFiles.map(({ detail }) => detail)).toEqual([expect.stringContaining(file.says)]);
    expect(sources).toMatchObject([{ file: join('bundle', 'people.csv'), rows_kept: 1 }]);
    expect(rssMiB).toBeLessThan(600);
  },
  60_000,
);
