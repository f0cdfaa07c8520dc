import { spawnSync } from 'node:child_process';
import { appendFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import type { Source } from '../../src/records/tables/sources.ts';
import { inStore, tempFolder } from '../store/temp-store.ts';

const program = fileURLToPath(new URL('measured-ingest.ts', import.meta.url));

/** Takes a CSV of so many readings in, in a process of its own, with a row at its end; gives also how to do so once more. */
async function measured(rows: number, last = '') {
  const folder = tempFolder();
  const path = join(folder, 'bundle', 'readings.csv');
  mkdirSync(join(folder, 'bundle'));
  await inStore(join(folder, 'maker'), (store) =>
    store.run(`COPY (SELECT 'J-' || (i // 5000) AS job_id, i % 5000 AS elapsed_s, 'g' AS gauge,
      CASE WHEN i % 5000 < 50 THEN 'over' ELSE round(100000 * exp(-(i % 5000) / 700) + 30, 2)::VARCHAR END AS vacuum_pa,
      20 + i % 17 / 10 AS line_c FROM range(${rows}) t(i)) TO '${path}' (HEADER)`),
  );
  appendFileSync(path, last);
  return { ...taken(folder), path, again: () => taken(folder) };
}

function taken(folder: string): { rssMiB: number; sources: Source[] } {
  const run = spawnSync(process.execPath, [program, join(folder, 'store'), join(folder, 'bundle')], {
    encoding: 'utf8',
  });
  expect(run.stderr).toBe('');
  return JSON.parse(run.stdout) as { rssMiB: number; sources: Source[] };
}

// Measured on two cores: 510 to 570 MiB. The file has 130 MB, its cells as objects would take several GiB.
test('five million readings are taken in within 1 GiB', async () => {
  const { rssMiB, sources } = await measured(5_000_000);
  expect(sources).toMatchObject([{ rows_read: 5_000_000, rows_kept: 5_000_000 }]);
  expect(rssMiB).toBeLessThan(1024);
}, 60_000);

// Measured: 490 to 580 MiB; past a million rows it nears the engine's limit of 768 MiB and the parser's own.
test('200,000 readings that must be read row by row, too', async () => {
  const { rssMiB, sources } = await measured(200_000, 'J-0,x,,,\n');
  expect(sources).toMatchObject([{ rows_read: 200_001, rows_kept: 200_000, rows_rejected: 1 }]);
  expect(rssMiB).toBeLessThan(1024);
}, 60_000);

// Measured: 650 MiB for three million, in batches; all at once they took 1.1 GiB.
test('two million readings that come again, each job with a reading mended', async () => {
  const rows = 2_000_000;
  const { path, again } = await measured(rows);
  writeFileSync(path, readFileSync(path, 'utf8').replaceAll(/,4999,g,[^,]*/g, ',4999,g,77'));
  const { rssMiB, sources } = again();
  expect(sources).toMatchObject([{ rows_read: rows, rows_kept: rows / 5000, rows_repeated: rows - rows / 5000 }]);
  expect(rssMiB).toBeLessThan(1024);
}, 120_000);
