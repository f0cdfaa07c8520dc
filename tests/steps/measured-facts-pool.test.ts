import { join } from 'node:path';
import { expect, onTestFinished, test, vi } from 'vitest';
import { measuredFacts } from '../../src/facts/measured-facts.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { writeBundle } from '../../src/simulate/write-bundle.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { MeasuredFactsPool } from '../../src/steps/measured-facts-pool.ts';
import { streamJobReadings } from '../../src/store/job-stream.ts';
import { type SegmentSlice, segmentSlices } from '../../src/store/segment-slices.ts';
import type { Store } from '../../src/store/store.ts';
import { inStore, tempFolder } from '../store/temp-store.ts';

const fleet = { jobs: 120, seed: 5 };
/** Small, so that there are several. */
const sliceRows = 20_000;

test.each([0, 1, 3])('the same facts, in the order of the slices, with %i other threads', async (threads) => {
  await inFleetStore(async (store, slices) => {
    const alone = [];
    for await (const readings of streamJobReadings(store, 'wanted')) alone.push(measuredFacts(readings));
    const pool = new MeasuredFactsPool(threads);
    const found = await Promise.all(slices.map((slice) => pool.facts({ slice, records: slice.jobs.map(() => ({})) })));
    await pool.end();
    expect(alone.some(({ pressure_drop_pa }) => pressure_drop_pa !== undefined)).toBe(true);
    // How many curves there are is told with their prints.
    const factsAlone = found.flat().map(({ facts: { pressure_curves: _, compared_curves: __, ...facts } }) => facts);
    expect(factsAlone).toEqual(alone);
    const prints = found.flat().map(({ facts, prints }) => [facts.compared_curves ?? 0, prints] as const);
    expect(prints.some(([compared]) => compared > 0)).toBe(true);
    for (const [compared, of] of prints) expect(of.filter(({ print }) => print.hasFace)).toHaveLength(compared);
  });
});

test.each([0, 1])(
  'a segment that is gone is heard, and so is the next slice, with %i other threads',
  async (threads) => {
    await inFleetStore(async (_, [first]) => {
      const pool = new MeasuredFactsPool(threads);
      const records = first.jobs.map(() => ({}));
      const [gone, there] = await Promise.allSettled([
        pool.facts({ slice: { ...first, path: '/nowhere.parquet' }, records }),
        pool.facts({ slice: first, records }),
      ]);
      const reason = { name: 'DryholdError', code: 'file-unreadable', parameters: { path: '/nowhere.parquet' } };
      expect(gone).toMatchObject({ status: 'rejected', reason });
      expect(there.status).toBe('fulfilled');
      await pool.end();
    });
  },
);

test.each([0, 2])('ended with slices waiting, each is answered or refused, with %i other threads', async (threads) => {
  await inFleetStore(async (_, slices) => {
    const pool = new MeasuredFactsPool(threads);
    const task = (slice: SegmentSlice) => ({ slice, records: slice.jobs.map(() => ({})) });
    // The first is under way when the end comes.
    await pool.facts(task(slices[0]));
    const asked = Promise.allSettled(slices.map((slice) => pool.facts(task(slice))));
    await pool.end();
    const answers = await asked;
    expect(answers).toHaveLength(slices.length);
    const refused = answers.filter((answer) => answer.status === 'rejected');
    expect(refused.length).toBeGreaterThan(0);
    for (const { reason } of refused) expect(String(reason)).toMatch(/ended before this slice|thread is over/);
  });
});

test('however long slices under way take, their threads are waited for: ended by force they abort the process', async () => {
  await inFleetStore(async (_, slices) => {
    const pool = new MeasuredFactsPool(3);
    const all = () => slices.map((slice) => pool.facts({ slice, records: slice.jobs.map(() => ({})) }));
    await Promise.all(all());
    const asked = Promise.allSettled(all());
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    onTestFinished(() => void vi.useRealTimers());
    const ended = pool.end();
    // Until the threads are at work.
    for (let turn = 0; turn < 100; turn += 1) await new Promise(setImmediate);
    vi.advanceTimersByTime(24 * 3_600_000);
    await ended;
    expect(await asked).toHaveLength(slices.length);
  });
});

/** A store of a fleet, and its slices. */
async function inFleetStore(work: (store: Store, slices: SegmentSlice[]) => Promise<void>): Promise<void> {
  const folder = tempFolder();
  await writeBundle(simulateFleet(fleet), join(folder, 'bundle'));
  await inStore(join(folder, 'store'), async (store) => {
    await ingest(store, [join(folder, 'bundle')]);
    await store.run('CREATE TEMP TABLE wanted AS SELECT job_id FROM segment_jobs');
    const slices = await segmentSlices(store, 'wanted', sliceRows);
    expect(slices.length).toBeGreaterThan(4);
    await work(store, slices);
  });
}
