import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { sliceRows } from '../../src/steps/measured-jobs.ts';
import { RecordLookup } from '../../src/steps/record-lookup.ts';
import type { SliceTask } from '../../src/steps/slice-facts.ts';
import { sliceTasks } from '../../src/steps/slice-tasks.ts';
import { MeasuredFactsPool } from '../../src/steps/measured-facts-pool.ts';
import { segmentSlices } from '../../src/store/segment-slices.ts';
import type { Store } from '../../src/store/store.ts';
import { type Timing, timed } from './timing.ts';

/** Readings that are held in memory at most. */
const mostHeld = 30_000_000;

/** How long the steps of judging take that go over the readings. */
export interface FactsTimings {
  /** Segmentation and fits over readings in memory, on as many threads as cores; one timing a pass. */
  readonly inMemory: readonly Timing[];
  readonly heldReadings: number;
  /** The same with the reading of the segments, as judging does it, its threads started anew. */
  readonly fromSegments: Timing;
}

/** Measures the vacuum facts of every job of a store, without the look-up of records, findings and writing. */
export async function factsAlone(store: Store, passes: number): Promise<FactsTimings> {
  await store.run('CREATE OR REPLACE TEMP TABLE to_measure AS SELECT job_id FROM segment_jobs');
  const lookup = await RecordLookup.begin(store);
  const tasksOf = async (mostRows: number) => {
    const tasks: SliceTask[] = [];
    for await (const { task } of sliceTasks(await segmentSlices(store, 'to_measure', mostRows), lookup))
      tasks.push(task);
    return tasks;
  };
  const asJudged = await tasksOf(sliceRows);
  const fromSegments = await timed(async () => {
    const pool = new MeasuredFactsPool();
    await Promise.all(asJudged.map((task) => pool.facts(task)));
    await pool.end();
  });
  let heldReadings = 0;
  const held: SliceTask[] = [];
  // Small slices share out evenly.
  for (const task of await tasksOf(sliceRows / 10)) {
    if (heldReadings + task.slice.rows > mostHeld) break;
    heldReadings += task.slice.rows;
    held.push(task);
  }
  return { inMemory: await inMemory(held, passes), heldReadings, fromSegments };
}

async function inMemory(tasks: readonly SliceTask[], passes: number): Promise<Timing[]> {
  const count = availableParallelism();
  const workers = Array.from({ length: count }, (_, index) => {
    const workerData = tasks.filter((_task, place) => place % count === index);
    return new Worker(new URL('facts-alone-worker.ts', import.meta.url), { workerData });
  });
  const all = () =>
    Promise.all(
      workers.map(
        (worker) =>
          new Promise((resolve, reject) => {
            worker.once('message', resolve);
            worker.once('error', reject);
          }),
      ),
    );
  await all();
  const timings: Timing[] = [];
  for (let pass = 0; pass < passes; pass += 1) {
    timings.push(
      await timed(() => {
        for (const worker of workers) worker.postMessage('pass');
        return all();
      }),
    );
  }
  await Promise.all(workers.map((worker) => worker.terminate()));
  return timings;
}
