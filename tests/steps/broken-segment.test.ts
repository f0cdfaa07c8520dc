import { mkdirSync, openSync, readdirSync, rmSync, statSync, writeSync, closeSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { judge } from '../../src/steps/judge.ts';
import { sliceCells } from '../../src/steps/judge/part-tasks.ts';
import { runDryhold } from '../store/run-dryhold.ts';
import { ingestFiles, inStore, tempFolder } from '../store/temp-store.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { Store } from '../../src/store/store.ts';

/** A store with one segment of several slices, and the segment's path. */
async function largeStore(): Promise<{ folder: string; segment: string }> {
  const bundle = join(tempFolder(), 'bundle');
  mkdirSync(bundle);
  const folder = join(tempFolder(), 'store');
  await inStore(folder, async (store) => {
    // Columns that alone tell of nothing make slices short, so that few rows are several.
    const idle = ['outdoor_c', 'indoor_c', 'indoor_wet_bulb_c', 'supply_c', 'return_c'];
    const constant = idle.map((name) => `20.0::DOUBLE AS ${name}`).join(', ');
    const rows = Math.ceil((3 * sliceCells) / (3 + idle.length));
    await store.run(`COPY (SELECT 'J' || lpad((i // 10000)::VARCHAR, 4, '0') AS job_id, (i % 10000)::DOUBLE AS elapsed_s,
      CASE WHEN i % 20 = 0 THEN (hash(i) % 100000000)::DOUBLE / 1000.0 END AS vacuum_pa, ${constant} FROM range(${rows}) t(i)) TO '${bundle}/readings.parquet'`);
    await ingest(store, [bundle]);
  });
  const readings = join(folder, 'readings');
  const files = readdirSync(readings);
  expect(files).toHaveLength(1);
  return { folder, segment: join(readings, files[0]) };
}

test('a segment that is damaged in its midst ends judging with its name and status 3, threads under way or not', async () => {
  const { folder, segment } = await largeStore();
  const { size } = statSync(segment);
  const file = openSync(segment, 'r+');
  writeSync(file, Buffer.alloc(Math.floor(size / 10), 0x5a), 0, undefined, Math.floor(size / 2));
  closeSync(file);
  for (let time = 0; time < 3; time += 1) {
    const { status, stderr } = runDryhold(['judge', '--store', folder]);
    expect(stderr).toMatch(/^dryhold: .*00000001\.parquet: cannot be read: [^\n]*\n$/);
    expect(status).toBe(3);
  }
  // Nothing is half judged, and the store goes on.
  await inStore(folder, async (store) => {
    expect(await store.rows('SELECT (SELECT count(*) FROM facts) + (SELECT count(*) FROM findings) AS n')).toEqual([
      { n: 0 },
    ]);
  });
});

test('a segment that is gone before the store is opened, or after', async () => {
  const folder = join(tempFolder(), 'store');
  await inStore(folder, async (store) => {
    for (const job of ['a', 'b'])
      await ingestFiles(store, { 'readings.csv': `job_id,elapsed_s,vacuum_pa\n${job},0,100\n${job},5,90\n` });
    const gone = join(store.segmentsFolder, '00000002.parquet');
    rmSync(gone);
    await expect(judge(store)).rejects.toMatchObject({ code: 'file-unreadable', parameters: { path: gone } });
  });
  await expect(Store.open(folder, 'read')).rejects.toMatchObject({ code: 'store-unreadable' });
  const { status, stderr } = runDryhold(['judge', '--store', folder]);
  expect(stderr).toMatch(/^dryhold: .*store: not a readable store: .*00000002\.parquet"?\n$/);
  expect(status).toBe(3);
});
