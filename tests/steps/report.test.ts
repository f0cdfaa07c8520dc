import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { checks } from '../../src/checks/checks.ts';
import type { ServiceManagerData } from '../../src/pages/service-manager-data.ts';
import { percentText, shareText } from '../../src/pages/share-text.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { writeBundle } from '../../src/simulate/write-bundle.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { judge } from '../../src/steps/judge.ts';
import { report } from '../../src/steps/report.ts';
import { limitPoints } from '../../src/steps/report/limit-points.ts';
import { Store } from '../../src/store/store.ts';
import { readIn } from '../pages/read-in.ts';
import { managerData, perJob } from './manager-data.ts';

// Every figure of the page against SQL that is written here, straight on the tables findings, jobs and memberships.

// A whole report takes some seconds, and machines may be busy.
vi.setConfig({ testTimeout: 120_000 });

const folder = mkdtempSync(join(tmpdir(), 'dryhold-report-'));
const jobs = 300;
let store: Store;
let data: ServiceManagerData;
const reader = { units: 'ip', dates: 'day-first' } as const;

beforeAll(async () => {
  await writeBundle(simulateFleet({ jobs, seed: 1, intervalS: 20 }), join(folder, 'bundle'));
  store = await Store.open(join(folder, 'store'), 'write');
  await ingest(store, [join(folder, 'bundle')]);
  await judge(store);
  data = (await managerData(store, false))('ip');
}, 120_000);

afterAll(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

test('jobs, period and the common share', async () => {
  const [row] = await store.rows(`${perJob} SELECT count(*) AS jobs, count(*) FILTER (judged) AS judged,
    count(*) FILTER (fails + suspects > 0) AS flagged, min(day) AS first, max(day) AS last FROM per_job`);
  expect(row).toEqual({
    jobs: data.jobs,
    judged: data.jobsJudged,
    flagged: data.jobsFlagged,
    first: data.period.from,
    last: data.period.to,
  });
  expect(data.jobs).toBe(jobs);
  expect(data.jobsFlagged).toBeGreaterThan(0);
});

test('outcomes per check, which add up to all jobs', async () => {
  for (const check of data.checks) {
    const count = async (outcome: string) =>
      (
        await store.rows<{ n: number }>(
          'SELECT count(DISTINCT job_id) AS n FROM findings WHERE check_id = $1 AND outcome = $2',
          [check.checkId, outcome],
        )
      )[0]?.n;
    expect(check).toMatchObject({
      pass: await count('pass'),
      suspect: await count('suspect'),
      fail: await count('fail'),
      notEvaluated: await count('not-evaluated'),
      missing: await count('missing'),
    });
    expect(check.pass + check.suspect + check.fail + check.notEvaluated + check.missing).toBe(jobs);
  }
});

test('jobs, judged and flagged per month, crew, technician and refrigerant', async () => {
  const rows =
    await store.rows(`${perJob} SELECT month, coalesce(crew, '') AS crew, coalesce(p.display_name, '') AS technician,
    coalesce(refrigerant, '') AS refrigerant, count(*) AS jobs, count(*) FILTER (judged) AS judged,
    count(*) FILTER (fails + suspects > 0) AS flagged FROM per_job LEFT JOIN people p USING (technician_id)
    GROUP BY ALL ORDER BY ALL`);
  expect(data.cells.rows).toEqual(rows);
  expect(data.cells.grain).toBe('month');
  expect(rows.length).toBeGreaterThan(60);
});

test('the last week beside the four before it', async () => {
  const { week } = data;
  const counts = async (from: number, to: number) =>
    (
      await store.rows(`${perJob} SELECT count(*) AS jobs, count(*) FILTER (judged) AS "jobsJudged",
        count(*) FILTER (fails + suspects > 0) AS "jobsFlagged" FROM per_job, (SELECT max(day)::DATE AS last FROM per_job)
        WHERE day::DATE > last - ${from} AND day::DATE <= last - ${to}`)
    )[0];
  expect(week).toMatchObject({
    ...(await counts(7, 0)),
    before: { ...(await counts(35, 7)), days: 28 },
    to: data.period.to,
  });
  expect(week.jobsFlagged).toBeGreaterThan(0);
  expect(week.before.jobs).toBeGreaterThan(week.jobs);
  expect(week.checks).toEqual(
    await Promise.all(
      checks.map(async ({ id }) => {
        const [row] = await store.rows(
          `SELECT count(*) FILTER (outcome IN ('suspect', 'fail')) AS found, count(*) AS judged
           FROM findings JOIN jobs j USING (job_id) WHERE check_id = $1 AND outcome IN ('pass', 'suspect', 'fail')
             AND j.started_at[1:10]::DATE > (SELECT max(started_at[1:10]::DATE) FROM jobs) - 7`,
          [id],
        );
        return { checkId: id, ...row };
      }),
    ),
  );
});

test('every job is watched from one day on until it leaves or calls back, and who counts as called back is one of the callbacks', () => {
  const sum = (key: 'began' | 'late' | 'left' | 'called') =>
    data.lifeTable.rows.reduce((total, row) => total + row[key], 0);
  expect(sum('left') + sum('called')).toBe(sum('began') + sum('late'));
  expect(sum('called')).toBe(data.callbacks.counted);
  expect(sum('called')).toBeGreaterThan(0);
});

test('each judged rise beside its own limit', async () => {
  const rows = await store.rows<{
    job: string;
    ratio: number;
  }>(`SELECT job_id AS job, outcome, j.started_at[1:10] AS day,
      CASE WHEN evidence->>'limit_kind' = 'level' THEN (evidence->>'judged_pa')::DOUBLE
        ELSE (evidence->>'judged_rise_pa')::DOUBLE END / (evidence->>'limit_pa')::DOUBLE AS ratio
    FROM findings JOIN jobs j USING (job_id) WHERE check_id = 'rise-over-limit' AND outcome IN ('pass', 'suspect', 'fail')
    ORDER BY day, job`);
  expect(data.limitPoints.rows.map(({ job, outcome, day, ratio }) => ({ job, outcome, day, ratio }))).toEqual(rows);
  expect(new Set(data.limitPoints.rows.map(({ weight }) => weight))).toEqual(new Set([1]));
  expect(data.limitPoints.of).toBe(rows.length);
  expect(rows.length).toBeGreaterThan(30);
});

test.each([6, 40, 90])(
  'of all judged rises %i at most are shown, flagged ones first, and stand for all',
  async (most) => {
    const all = data.limitPoints;
    const some = await limitPoints(store, data.policyId, most);
    const [flagged, passed] = [some.rows.filter(isFlagged), some.rows.filter((row) => !isFlagged(row))];
    const fewest = Math.floor(most / 2);
    expect([some.of, some.flagged]).toEqual([all.of, all.rows.filter(isFlagged).length]);
    expect(flagged).toHaveLength(Math.min(all.flagged, Math.max(fewest, most - (all.of - all.flagged))));
    expect(some.rows).toHaveLength(Math.min(most, all.of));
    const weights = (rows: typeof some.rows) => rows.reduce((sum, { weight }) => sum + weight, 0);
    expect(weights(flagged)).toBeCloseTo(all.flagged, 9);
    expect(weights(passed)).toBeCloseTo(all.of - all.flagged, 9);
  },
);

function isFlagged({ outcome }: { readonly outcome: string }): boolean {
  return outcome !== 'pass';
}

test('judged, flagged, not judged and the interval per technician', async () => {
  // Wilson's interval, Newcombe 1998 method 3, spelled out in SQL; z is the 97.5 % quantile of the normal distribution.
  const rows = await store.rows<Record<string, number | string>>(`${perJob}, counted AS (
      SELECT technician_id, count(*) FILTER (judged) AS n, count(*) FILTER (fails + suspects > 0) AS k,
        count(*) FILTER (NOT judged) AS left_out, 1.959963984540054 AS z FROM per_job GROUP BY technician_id)
    SELECT c.*, p.display_name AS name,
      (2 * k + z * z - z * sqrt(z * z + 4 * k * (1 - k / n))) / (2 * (n + z * z)) AS low,
      (2 * k + z * z + z * sqrt(z * z + 4 * k * (1 - k / n))) / (2 * (n + z * z)) AS high
    FROM counted c JOIN people p USING (technician_id) ORDER BY technician_id`);
  expect(data.technicians).toHaveLength(rows.length);
  for (const [place, row] of rows.entries()) {
    const found = data.technicians[place];
    expect(found).toMatchObject({
      technicianId: row.technician_id,
      name: row.name,
      judged: row.n,
      flagged: row.k,
      notJudged: row.left_out,
    });
    expect(found?.low).toBeCloseTo(Number(row.low), 10);
    expect(found?.high).toBeCloseTo(Number(row.high), 10);
  }
});

/** What is wrong with a system, the most pressing first; any other fail comes after these. */
const pressing = [
  'pressure-not-held',
  'leaking',
  'test-pressure-over-design',
  'wet',
  'water-in-system',
  'rise-over-limit',
];
pressing.push('charge-off-target', 'target-not-reached');

/** By job: the most pressing of what failed, but for what is doubtful of the recording alone. */
const failed = `failed AS (
  SELECT job_id, min(coalesce(list_position([${pressing.map((id) => `'${id}'`).join()}], check_id), 99)) AS rank
  FROM findings WHERE outcome = 'fail' AND check_id NOT IN (${checks
    .filter(({ group }) => group === 'recording')
    .map(({ id }) => `'${id}'`)
    .join()}) GROUP BY job_id)`;

test('the jobs to look at: flagged, of the last seven days, the most pressing and then the worst first', async () => {
  const rows = await store.rows<{
    job_id: string;
  }>(`${perJob}, ${failed} SELECT job_id FROM per_job LEFT JOIN failed USING (job_id)
    WHERE fails + suspects > 0 AND day::DATE > (SELECT max(day)::DATE FROM per_job) - 7
    ORDER BY rank NULLS LAST, fails DESC, suspects DESC, (SELECT started_at FROM jobs j WHERE j.job_id = per_job.job_id) DESC, job_id`);
  expect(data.lookAt.map(({ jobId }) => jobId)).toEqual(rows.map((row) => row.job_id));
});

test('whom to send back: open jobs of that week that failed, what is wrong with a system before how the work was done', async () => {
  const rows = await store.rows<{ job_id: string }>(`${perJob}, ${failed}
    SELECT job_id FROM per_job JOIN failed USING (job_id) JOIN jobs j USING (job_id)
    WHERE day::DATE > (SELECT max(day)::DATE FROM per_job) - 7
      AND NOT EXISTS (FROM callbacks c WHERE c.job_id = j.job_id OR (c.system_id = j.system_id AND c.reported_at > j.started_at))
      AND NOT EXISTS (FROM jobs later WHERE later.system_id = j.system_id AND later.started_at > j.started_at)
    ORDER BY rank, fails DESC, suspects DESC, j.started_at DESC, job_id`);
  // So few callbacks make no watch list.
  expect(data.risk.noList).toBe('too-few');
  expect(rows.length).toBeGreaterThan(1);
  expect(data.sendBack.map(({ job }) => job.jobId)).toEqual(rows.map((row) => row.job_id));
  expect(data.sendBackOf).toBe(rows.length);
  const written = await report(store, join(folder, 'page'), { reader, codes: false });
  expect(written).toMatchObject({ lookFirst: rows[0]?.job_id, jobs, jobsFlagged: data.jobsFlagged });
});

test('the folder holds the pages that are told, each job and person where the links lead, and nothing of an earlier report', async () => {
  const out = join(folder, 'again');
  const first = await report(store, out, { reader, codes: true });
  const coded = readdirSync(join(out, 'sheets'));
  for (const own of ['sheets/mine.txt', 'jobs/mine.html', 'mine.html']) writeFileSync(join(out, own), 'mine');
  const second = await report(store, out, { reader, codes: false });
  expect(second).toEqual(first);
  const files = readdirSync(out, { recursive: true }).map((name) => join(out, String(name)));
  const pages = files.filter((name) => name.endsWith('.html') && !name.endsWith('mine.html'));
  expect(pages).toHaveLength(4 + second.sheets + second.jobPages);
  expect(second.sheets).toBe(coded.length);
  // Sheets by code are gone; what a report has not written stays.
  for (const name of coded) expect(existsSync(join(out, 'sheets', name))).toBe(false);
  for (const own of ['sheets/mine.txt', 'jobs/mine.html', 'mine.html'])
    expect(readFileSync(join(out, own), 'utf8')).toBe('mine');
  expect(pages).toEqual(expect.arrayContaining([second.page, ...Object.values(second.pages ?? {})]));
  let links = 0;
  for (const page of pages)
    for (const [, href = ''] of readFileSync(page, 'utf8').matchAll(/<a [^>]*href="([^"#]+)/g)) {
      links += 1;
      expect([page, href, pages.includes(join(page, '..', href))]).toEqual([page, href, true]);
    }
  expect(links).toBeGreaterThan(5 * pages.length);
});

test('the tables of the page hold exactly these figures', async () => {
  const { pages } = await report(store, join(folder, 'page'), { reader, codes: false });
  const page = readIn(readFileSync(pages?.serviceManager ?? '', 'utf8'), 'ip');
  const rows = [...page.matchAll(/<tr[^>]*>(.*?)<\/tr>/gs)].map(([, row = '']) =>
    [...row.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/gs)].map(([, cell = '']) => cell.replace(/<[^>]*>/g, '')),
  );
  const rowOf = (head: string) => rows.find(([first]) => first === head)?.slice(1);
  for (const { question, fail, suspect, pass, notEvaluated, missing } of data.checks)
    expect(rowOf(question)).toEqual([fail, suspect, pass, notEvaluated, missing].map(String));
  for (const { name, judged, flagged, notJudged, low, high } of data.technicians) {
    const share = judged === 0 ? '–' : percentText(flagged / judged);
    const interval = judged === 0 ? '–' : `${Math.round(100 * low)}–${percentText(high)}`;
    expect(rowOf(name)?.slice(1)).toEqual([String(judged), String(flagged), share, interval, String(notJudged)]);
  }
  const byMonth = await store.rows<{ crew: string; judged: number; flagged: number }>(`${perJob}, july AS (
      SELECT crew, count(*) FILTER (judged) AS judged, count(*) FILTER (fails + suspects > 0) AS flagged
      FROM per_job WHERE month = '2025-07' GROUP BY crew)
    FROM july UNION ALL SELECT 'all', sum(judged)::INTEGER, sum(flagged)::INTEGER FROM july ORDER BY crew`);
  expect(rowOf('Jul 2025')).toEqual(byMonth.map(({ flagged, judged }) => shareText(flagged, judged)));
  expect(byMonth.length).toBeGreaterThan(3);
});

test('codes stand for every name and id of a technician', async () => {
  const told = await managerData(store, true);
  const coded = told('ip');
  const text = JSON.stringify([coded, told('si')]);
  for (const { technicianId, name } of data.technicians) {
    expect(text).not.toContain(technicianId);
    expect(text).not.toContain(name);
  }
  expect(coded.technicians.map(({ flagged }) => flagged)).toEqual(data.technicians.map(({ flagged }) => flagged));
});
