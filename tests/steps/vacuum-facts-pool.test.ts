import { join } from 'node:path';
import { expect, test } from 'vitest';
import { vacuumFacts } from '../../src/facts/vacuum-facts.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { writeBundle } from '../../src/simulate/write-bundle.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { VacuumFactsPool } from '../../src/steps/vacuum-facts-pool.ts';
import { streamJobReadings } from '../../src/store/job-stream.ts';
import { segmentSlices } from '../../src/store/segment-slices.ts';
import { inStore, tempFolder } from '../store/temp-store.ts';

const fleet = { jobs: 120, seed: 5 };
/** Small, so that there are several. */
const sliceRows = 20_000;

test.each([0, 1, 3])('the same facts, in the order of the slices, with %i other threads', async (threads) => {
  const folder = tempFolder();
  await writeBundle(simulateFleet(fleet), join(folder, 'bundle'));
  await inStore(join(folder, 'store'), async (store) => {
    await ingest(store, [join(folder, 'bundle')]);
    await store.run('CREATE TEMP TABLE wanted AS SELECT job_id FROM segment_jobs');
    const alone = [];
    for await (const { series, marks } of streamJobReadings(store, 'wanted'))
      alone.push(vacuumFacts({ series, marks }));
    const slices = await segmentSlices(store, 'wanted', sliceRows);
    expect(slices.length).toBeGreaterThan(4);
    const pool = new VacuumFactsPool(store, threads);
    const found = await Promise.all(slices.map((slice) => pool.facts({ slice, records: slice.jobs.map(() => ({})) })));
    await pool.end();
    expect(found.flat()).toEqual(alone);
  });
});

test.each([0, 1])('a segment that is gone is heard, with %i other threads', async (threads) => {
  await inStore(join(tempFolder(), 'store'), async (store) => {
    const pool = new VacuumFactsPool(store, threads);
    const slice = { path: '/nowhere.parquet', columns: ['vacuum_pa'], firstRow: 0, rows: 1, jobs: [] };
    await expect(pool.facts({ slice, records: [] })).rejects.toThrow('nowhere.parquet');
    await pool.end();
  });
});
