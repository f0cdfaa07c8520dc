import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { ServiceManagerData } from '../../src/pages/service-manager-data.ts';
import { percentText, shareText } from '../../src/pages/share-text.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { writeBundle } from '../../src/simulate/write-bundle.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { judge } from '../../src/steps/judge.ts';
import { report } from '../../src/steps/report.ts';
import { serviceManagerData } from '../../src/steps/report-data.ts';
import { Store } from '../../src/store/store.ts';

// Every figure of the page against SQL that is written here, straight on the tables findings, jobs and memberships.

const folder = mkdtempSync(join(tmpdir(), 'dryhold-report-'));
let store: Store;
let data: ServiceManagerData;

/** One row per job: its crew on the day, whether judged, whether flagged. */
const perJob = `WITH per_job AS (
  SELECT j.job_id, j.technician_id, j.started_at[1:10] AS day, j.started_at[1:7] AS month, coalesce(j.crew_id, m.crew_id) AS crew,
    (SELECT count(*) FROM findings f WHERE f.job_id = j.job_id AND f.outcome IN ('pass', 'suspect', 'fail')) > 0 AS judged,
    (SELECT count(*) FROM findings f WHERE f.job_id = j.job_id AND f.outcome = 'fail')::INTEGER AS fails,
    (SELECT count(*) FROM findings f WHERE f.job_id = j.job_id AND f.outcome = 'suspect')::INTEGER AS suspects
  FROM jobs j LEFT JOIN memberships m ON m.technician_id = j.technician_id
    AND m.from_on <= j.started_at[1:10]::DATE AND coalesce(m.to_on, '9999-12-31'::DATE) >= j.started_at[1:10]::DATE)`;

beforeAll(async () => {
  await writeBundle(simulateFleet({ jobs: 120, seed: 7 }), join(folder, 'bundle'));
  store = await Store.open(join(folder, 'store'), 'write');
  await ingest(store, [join(folder, 'bundle')]);
  await judge(store);
  data = await serviceManagerData(store, { units: 'ip', codes: false });
}, 60_000);

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
  expect(data.jobs).toBe(120);
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
    expect(check.pass + check.suspect + check.fail + check.notEvaluated + check.missing).toBe(120);
  }
});

test('judged and flagged per month and crew', async () => {
  const rows = await store.rows(`${perJob} SELECT month, crew AS "crewId", count(*) FILTER (judged) AS judged,
    count(*) FILTER (fails + suspects > 0) AS flagged FROM per_job
    GROUP BY month, crew HAVING count(*) FILTER (judged) > 0 ORDER BY month, crew`);
  expect(data.monthly).toEqual(rows);
  expect(rows.length).toBeGreaterThan(10);
});

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

test('the jobs to look at: flagged, of the last seven days, worst first', async () => {
  const rows = await store.rows<{ job_id: string }>(`${perJob} SELECT job_id FROM per_job
    WHERE fails + suspects > 0 AND day::DATE > (SELECT max(day)::DATE FROM per_job) - 7
    ORDER BY fails DESC, suspects DESC, (SELECT started_at FROM jobs j WHERE j.job_id = per_job.job_id) DESC, job_id`);
  expect(data.lookAt.map(({ jobId }) => jobId)).toEqual(rows.map((row) => row.job_id));
  const [first] = rows;
  const written = await report(store, join(folder, 'page'), { units: 'ip', codes: false });
  expect(written).toMatchObject({ lookFirst: first?.job_id ?? null, jobs: 120, jobsFlagged: data.jobsFlagged });
});

test('the tables of the page hold exactly these figures', async () => {
  const { page } = await report(store, join(folder, 'page'), { units: 'ip', codes: false });
  const rows = [...readFileSync(page, 'utf8').matchAll(/<tr[^>]*>(.*?)<\/tr>/gs)].map(([, row = '']) =>
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
  const crews = [...new Set(data.monthly.map(({ crewId }) => crewId))].toSorted();
  const [july] = data.monthly;
  const place = crews.indexOf(july?.crewId ?? '');
  expect(rowOf('Jul 2025')?.[place]).toBe(shareText(july?.flagged ?? 0, july?.judged ?? 0));
});

test('codes stand for every name and id of a technician', async () => {
  const coded = await serviceManagerData(store, { units: 'ip', codes: true });
  const text = JSON.stringify(coded);
  for (const { technicianId, name } of data.technicians) {
    expect(text).not.toContain(technicianId);
    expect(text).not.toContain(name);
  }
  expect(coded.technicians.map(({ flagged }) => flagged)).toEqual(data.technicians.map(({ flagged }) => flagged));
});
