import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, onTestFinished, test, vi } from 'vitest';
import { asRecorded } from '../../src/checks/policy.ts';
import { measuredFacts } from '../../src/facts/measured-facts.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { writeBundle } from '../../src/simulate/write-bundle.ts';
import { ingest } from '../../src/steps/ingest.ts';
import type { PartTask } from '../../src/steps/judge/part-messages.ts';
import { PartThreads } from '../../src/steps/judge/part-threads.ts';
import { streamJobReadings } from '../../src/store/job-stream.ts';
import { type SegmentSlice, segmentSlices } from '../../src/store/segment-slices.ts';
import { parquetFiles } from '../../src/store/sql.ts';
import type { Store } from '../../src/store/store.ts';
import { inStore, tempFolder } from '../store/temp-store.ts';

const fleet = { jobs: 120, seed: 5 };
/** Small, so that there are several. */
const sliceCells = 300_000;
const settings = { policy: asRecorded };

test.each([0, 1, 3])('the same facts, in the order of the slices, with %i other threads', async (threads) => {
  await inFleetStore(async (store, slices) => {
    const alone = new Map<string, Record<string, unknown>>();
    for await (const { jobId, ...readings } of streamJobReadings(store, 'wanted'))
      alone.set(jobId, measuredFacts(readings));
    const pool = new PartThreads(settings, threads);
    const tasks = slices.map(taskOf);
    await Promise.all(tasks.map((task) => pool.make(task)));
    await pool.end();
    const of = (table: string) => parquetFiles(tasks.map(({ folder }) => join(folder, `${table}.parquet`)));
    const found = await store.rows(`SELECT * FROM ${of('facts')}`);
    expect(found.map(({ job_id }) => job_id)).toEqual([...alone.keys()]);
    expect(found.some(({ pressure_drop_pa }) => pressure_drop_pa !== null)).toBe(true);
    for (const facts of found) expect(facts).toMatchObject(alone.get(String(facts.job_id)) ?? {});
    // As many faces as are told stand among the prints.
    const [{ compared, printed, findings }] = await store.rows(
      `SELECT (SELECT sum(compared_curves)::INTEGER FROM ${of('facts')}) AS compared, (SELECT count(*)::INTEGER FROM ${of('curves')}) AS printed,
         (SELECT count(DISTINCT job_id)::INTEGER FROM ${of('findings')}) AS findings`,
    );
    expect(compared).toBeGreaterThan(0);
    expect(printed).toBeGreaterThanOrEqual(Number(compared));
    expect(findings).toBe(alone.size);
  });
});

test.each([0, 1])(
  'a segment that is gone is heard, and so is the next slice, with %i other threads',
  async (threads) => {
    await inFleetStore(async (store, [first]) => {
      const pool = new PartThreads(settings, threads);
      const there = taskOf(first);
      const [gone, after] = await Promise.allSettled([
        pool.make(taskOf({ ...first, path: '/nowhere.parquet' })),
        pool.make(there),
      ]);
      const reason = { name: 'DryholdError', code: 'file-unreadable', parameters: { path: '/nowhere.parquet' } };
      expect(gone).toMatchObject({ status: 'rejected', reason });
      expect(after.status).toBe('fulfilled');
      // Nothing of the part that failed is in the next.
      const rows = await store.rows(`SELECT job_id FROM ${parquetFiles(join(there.folder, 'facts.parquet'))}`);
      expect(rows).toHaveLength(first.jobs.length);
      await pool.end();
    });
  },
);

test.each([0, 2])('ended with parts waiting, each is answered or refused, with %i other threads', async (threads) => {
  await inFleetStore(async (_, slices) => {
    const pool = new PartThreads(settings, threads);
    // The first is under way when the end comes.
    await pool.make(taskOf(slices[0]));
    const asked = Promise.allSettled(slices.map((slice) => pool.make(taskOf(slice))));
    await pool.end();
    const answers = await asked;
    expect(answers).toHaveLength(slices.length);
    const refused = answers.filter((answer) => answer.status === 'rejected');
    expect(refused.length).toBeGreaterThan(0);
    for (const { reason } of refused) expect(String(reason)).toMatch(/ended before this part|thread is over/);
  });
});

test('however long parts under way take, their threads are waited for: ended by force they abort the process', async () => {
  await inFleetStore(async (_, slices) => {
    const pool = new PartThreads(settings, 3);
    const all = () => slices.map((slice) => pool.make(taskOf(slice)));
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

/** A task of one slice, of whose jobs no record tells, into a folder of its own. */
function taskOf(slice: SegmentSlice): PartTask {
  const folder = join(tempFolder(), 'part');
  mkdirSync(folder);
  const records = slice.jobs.map(({ jobId }) => ({ jobId, lineSets: [], weighings: [] }));
  return { folder, slices: [{ slice, records }], unread: [], standing: [] };
}

const shared = mkdtempSync(join(tmpdir(), 'dryhold-test-'));
afterAll(() => rmSync(shared, { recursive: true, force: true }));
let made: Promise<string> | undefined;

/** A store of a fleet, and its slices. */
async function inFleetStore(work: (store: Store, slices: SegmentSlice[]) => Promise<void>): Promise<void> {
  made ??= madeStore();
  await inStore(await made, async (store) => {
    await store.run('CREATE TEMP TABLE wanted AS SELECT job_id FROM segment_jobs');
    const slices: SegmentSlice[] = [];
    for await (const slice of segmentSlices(store, 'wanted', sliceCells)) slices.push(slice);
    expect(slices.length).toBeGreaterThan(4);
    await work(store, slices);
  });
}

async function madeStore(): Promise<string> {
  await writeBundle(simulateFleet(fleet), join(shared, 'bundle'));
  await inStore(join(shared, 'store'), async (store) => {
    await ingest(store, [join(shared, 'bundle')]);
  });
  return join(shared, 'store');
}
