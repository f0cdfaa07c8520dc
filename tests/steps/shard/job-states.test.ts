import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ingest } from '../../../src/steps/ingest.ts';
import { judge } from '../../../src/steps/judge.ts';
import { judgeShard } from '../../../src/steps/shard/judge-shard.ts';
import { mergeResults } from '../../../src/steps/shard/merge-results.ts';
import { shard } from '../../../src/steps/shard/shard.ts';
import { noteJobStates } from '../../../src/store/job-states.ts';
import type { Store } from '../../../src/store/store.ts';
import { ingestFiles, inStore, tempFolder, writeFiles } from '../../store/temp-store.ts';

/** A map whose pressures are of a unit. */
const mapIn = (unit: string) =>
  JSON.stringify({
    name: 'recorder',
    rows: [
      {
        table: 'readings',
        columns: { job_id: { column: 'j' }, elapsed_s: { column: 't' }, vacuum_pa: { column: 'v', unit } },
      },
    ],
  });

const own = {
  'jobs.csv': 'job_id,started_at\nA,2026-03-02T08:00:00Z\nB,2026-03-02T09:00:00Z\nC,2026-03-02T10:00:00Z\n',
  'readings.csv': 'job_id,elapsed_s,vacuum_pa\nB,0,500\nB,10,400\n',
};

/** The readings of B by a bundle, those of A and C by a map; of the file of C only what came later under its name is in the book of files. */
async function fed(store: Store, map: string): Promise<void> {
  const through = (text: string) => {
    const folder = writeFiles(tempFolder(), { 'week.csv': `j,t,v\n${text}`, 'map.json': map });
    return ingest(store, [join(folder, 'week.csv')], { map: join(folder, 'map.json') });
  };
  await ingestFiles(store, own);
  await through('C,0,300\n');
  await through('A,0,500\nA,10,400\n');
}

test('what was found by another map of the same name is left, and a store made of the shards takes all of it', async () => {
  const folder = tempFolder();
  const judged = join(folder, 'judged');
  await inStore(join(folder, 'store'), async (store) => {
    await fed(store, mapIn('Pa'));
    const { shards } = await shard(store, join(folder, 'shards'), { jobsPerShard: 9 });
    await judgeShard(join(folder, 'shards', shards[0].folder), judged);
  });
  await inStore(join(folder, 'mended'), async (store) => {
    await fed(store, mapIn('micron'));
    expect(await mergeResults(store, [judged])).toMatchObject({ judged: 1, upToDate: 1, changed: 2 });
    expect(await store.rows('SELECT job_id FROM facts')).toEqual([{ job_id: 'B' }]);
    expect(await judge(store)).toMatchObject({ judged: 2 });
  });
  await inStore(join(folder, 'of-shards'), async (store) => {
    await ingest(store, [join(folder, 'shards')]);
    expect(await mergeResults(store, [judged])).toMatchObject({ judged: 3, upToDate: 3, changed: 0 });
  });
});

test('a column that is the same all along counts, however many rows there are', async () => {
  const stateOf = (mark: string) =>
    inStore(join(tempFolder(), 'store'), async (store) => {
      const rows = [0, 1, 2, 3].map((atS) => `A,${atS},${900 + atS},${mark}\n`).join('');
      await ingestFiles(store, { 'readings.csv': `job_id,elapsed_s,suction_pa,phase_mark\n${rows}` });
      await store.fill('wanted_jobs', ['A']);
      await noteJobStates(store);
      return store.rows('SELECT state FROM temp.job_states');
    });
  expect(await stateOf('run')).toEqual(await stateOf('run'));
  expect(await stateOf('run')).not.toEqual(await stateOf('hold'));
});
