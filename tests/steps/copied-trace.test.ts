import { expect, test } from 'vitest';
import { checkNamed } from '../../src/checks/checks.ts';
import { messageText } from '../../src/checks/message-text.ts';
import { asRecorded } from '../../src/checks/policy.ts';
import type { JobCurve } from '../../src/facts/recording/job-curves.ts';
import { Random } from '../../src/numerics/random.ts';
import type { Facts } from '../../src/records/tables/facts.ts';
import { judge } from '../../src/steps/judge.ts';
import type { Store } from '../../src/store/store.ts';
import { copyOf } from '../../src/simulate/mishaps/copy-kinds.ts';
import { type HonestCurve, honestLog, kindOf } from '../copies/honest-log.ts';
import { exported, ingestFiles, inStore, tempFolder } from '../store/temp-store.ts';

const seed = 12;
const other = { ...asRecorded, id: 'other' };

/** Vacuum curves of honest jobs of some length, by job. */
function honestJobs(count: number): Map<string, HonestCurve> {
  const jobs = new Map<string, HonestCurve>();
  for (let number = 1; jobs.size < count; number += 1) {
    const vacuum = honestLog(seed, number).find(({ column, pa }) => column === 'vacuum_pa' && pa.length > 300);
    if (kindOf(number) !== 'quiet' && vacuum !== undefined) jobs.set(`honest-${jobs.size + 1}`, vacuum);
  }
  return jobs;
}

function csv(jobs: ReadonlyMap<string, Pick<JobCurve, 'elapsedS' | 'pa'>>): string {
  const rows: string[] = [];
  for (const [id, { elapsedS, pa }] of jobs)
    for (const [row, value] of pa.entries())
      if (!Number.isNaN(value)) rows.push(`${id},${elapsedS[row]},${Number.isFinite(value) ? value : 'over'}`);
  return `job_id,elapsed_s,vacuum_pa\n${rows.join('\n')}\n`;
}

const honest = honestJobs(12);
const curveOf = (id: string): HonestCurve => honest.get(id) as HonestCurve;
const copies = new Map<string, JobCurve>(
  ['exact', 'trimmed to 60 %', 'shifted in time', 'scaled by up to 3 %', 're-noised'].map((kind, index) => [
    `copy-${index + 1}`,
    copyOf(curveOf(`honest-${index + 1}`), kind, new Random(seed, index)),
  ]),
);

const matches = (store: Store) =>
  store.rows<{ one: string; two: string }>('SELECT job_id AS one, other_job_id AS two FROM curve_matches ORDER BY ALL');
const found = (store: Store) =>
  store.rows(
    `SELECT job_id, message_id, outcome FROM findings WHERE check_id = 'copied-trace' AND outcome <> 'pass' ORDER BY ALL`,
  );
const pairs = [1, 2, 3, 4, 5].map((number) => ({ one: `copy-${number}`, two: `honest-${number}` }));

test('a copied curve is told of on both jobs, and on no other, whichever came first', async () => {
  const tables = ['curve_matches', 'facts', 'findings'];
  const all = async (store: Store) => Promise.all(tables.map((table) => exported(store, table)));
  const once = await inStore(`${tempFolder()}/store`, async (store) => {
    await ingestFiles(store, { 'readings.csv': csv(new Map([...honest, ...copies])) });
    expect((await judge(store)).matches).toBe(5);
    expect(await matches(store)).toEqual(pairs);
    expect(await found(store)).toEqual(
      pairs
        .flatMap(({ one, two }) => [one, two])
        .sort()
        .map((job_id) => ({ job_id, message_id: 'same', outcome: 'suspect' })),
    );
    return all(store);
  });
  for (const order of [
    [honest, copies],
    [copies, honest],
  ])
    await inStore(`${tempFolder()}/store`, async (store) => {
      for (const [index, part] of order.entries()) {
        await ingestFiles(store, { [`readings/${index}.csv`]: csv(part) });
        await judge(store);
      }
      expect(await all(store)).toEqual(once);
    });
});

test('how the curves differ stands in table and facts, as seen from either job', async () => {
  await inStore(`${tempFolder()}/store`, async (store) => {
    const original = curveOf('honest-1');
    const copy = {
      elapsedS: original.elapsedS.subarray(50).map((atS) => atS + 1000),
      pa: original.pa.subarray(50).map((pa) => pa * 1.02),
    };
    await ingestFiles(store, {
      'readings.csv': csv(
        new Map<string, Pick<JobCurve, 'elapsedS' | 'pa'>>([
          ['a', original],
          ['b', copy],
        ]),
      ),
    });
    await judge(store);
    const [match] = await store.rows('SELECT * FROM curve_matches');
    expect(match).toMatchObject({ job_id: 'a', other_job_id: 'b', column_name: 'vacuum_pa' });
    expect(match.shift_s).toBeCloseTo(1000, 6);
    expect(match.scale_ratio).toBeCloseTo(1.02, 9);
    expect(match.scatter_ratio).toBeCloseTo(0, 9);
    expect(match.share_ratio).toBeGreaterThan(0.9);
    const [a, b] = await store.rows<Facts>('SELECT * FROM facts ORDER BY job_id');
    expect(a).toMatchObject({
      match_jobs: 1,
      match_job_id: 'b',
      match_column: 'vacuum_pa',
      match_readings: match.matched_readings,
    });
    expect(b).toMatchObject({
      match_jobs: 1,
      match_job_id: 'a',
      match_start_s: Number(match.from_s) + Number(match.shift_s),
    });
    expect(b.match_scale_ratio).toBeCloseTo(1 / 1.02, 9);
    const [{ evidence }] = await store.rows<{ evidence: string }>(
      `SELECT evidence FROM findings WHERE job_id = 'a' AND check_id = 'copied-trace'`,
    );
    const check = checkNamed('copied-trace');
    const says = check === undefined ? '' : messageText(check, 'same', JSON.parse(evidence), 'ip');
    expect(says).toContain('The same curve stands in another job, b:');
    expect(says).toContain('pressures 2.0 % higher there, at another time of the log');
    expect(says).toContain('A logger that two jobs shared');
  });
});

test('a job whose log is put right is told of no more, on neither side and under no policy', async () => {
  await inStore(`${tempFolder()}/store`, async (store) => {
    const wrong = new Map([
      ['one', curveOf('honest-1')],
      ['two', copies.get('copy-1') as JobCurve],
    ] as const);
    await ingestFiles(store, { 'readings.csv': csv(wrong) });
    await judge(store);
    await judge(store, { policy: other });
    expect(await found(store)).toHaveLength(4);
    await ingestFiles(store, { 'readings.csv': csv(new Map([...wrong, ['two', curveOf('honest-2')]])) });
    await judge(store, { policy: other });
    expect(await matches(store)).toEqual([]);
    await judge(store);
    expect(await found(store)).toEqual([]);
    expect(await store.rows('SELECT job_id FROM facts WHERE match_jobs IS NOT NULL')).toEqual([]);
    expect((await judge(store)).judged).toBe(0);
  });
});

test('a curve that stands in very many jobs is found in each, and its pairs do not grow as their square', async () => {
  await inStore(`${tempFolder()}/store`, async (store) => {
    const same = new Map(Array.from({ length: 60 }, (_, index) => [`job-${index}`, curveOf('honest-3')] as const));
    await ingestFiles(store, { 'readings.csv': csv(same) });
    const { matches: count } = await judge(store);
    expect(await found(store)).toHaveLength(60);
    expect(count).toBeLessThanOrEqual(10 * 60);
  });
});
