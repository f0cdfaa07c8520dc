import { dateOf, dayOf } from '../numerics/calendar-day.ts';
import { type Outcome, outcomes } from '../checks/check.ts';
import { checks } from '../checks/checks.ts';
import { wilsonInterval } from '../numerics/wilson-interval.ts';
import { countText } from '../pages/share-text.ts';
import type { CheckCount, ServiceManagerData, TechnicianCount } from '../pages/service-manager-data.ts';
import { query } from '../store/sql.ts';
import type { Store } from '../store/store.ts';
import type { UnitSystem } from '../units/display.ts';
import { jobEvidence } from './job-evidence.ts';
import { type PeopleNames, peopleNames } from './people-names.ts';
import { policyJudged } from './policy-judged.ts';

export interface ReportOptions {
  readonly units: UnitSystem;
  readonly codes: boolean;
}

/** Jobs of the last week whose recordings the page shows at most. */
const mostEvidence = 40;

/** All that the service manager's page says, by the policy judged last. */
export async function serviceManagerData(store: Store, { units, codes }: ReportOptions): Promise<ServiceManagerData> {
  const policy = await policyJudged(store);
  await store.run(query('job-crews'));
  await store.run(query('job-outcomes'), [policy.id]);
  const names = await peopleNames(store, codes);
  const [period] = await store.rows<{
    first: string | null;
    last: string | null;
    jobs: number;
    judged: number;
    flagged: number;
  }>(
    `SELECT min(day) AS first, max(day) AS last, count(*) AS jobs, count(*) FILTER (judged) AS judged,
       count(*) FILTER (flagged) AS flagged FROM temp.job_outcomes`,
  );
  const to = period.last ?? '';
  const week = { from: daysBefore(to, 6), to };
  await store.run(
    `CREATE OR REPLACE TEMP TABLE look_at AS SELECT job_id FROM temp.job_outcomes
     WHERE flagged AND day BETWEEN $1 AND $2 ORDER BY fails DESC, suspects DESC, started_at DESC, job_id`,
    [week.from, week.to],
  );
  const [{ found }] = await store.rows<{ found: number }>('SELECT count(*) AS found FROM temp.look_at');
  await store.run(`CREATE OR REPLACE TEMP TABLE shown AS SELECT job_id FROM temp.look_at LIMIT ${mostEvidence}`);
  return {
    policyId: policy.id,
    policyTitle: policy.title,
    period: { from: period.first ?? '', to },
    jobs: period.jobs,
    jobsJudged: period.judged,
    jobsFlagged: period.flagged,
    checks: await checkCounts(store, policy.id),
    monthly: (
      await store.rows<{ month: string; crew_id: string; judged: number; flagged: number }>(query('monthly'))
    ).map(({ crew_id, ...row }) => ({ ...row, crewId: names.crew(crew_id) })),
    technicians: await technicianCounts(store, names, codes),
    week,
    lookAt: (await jobEvidence(store, 'shown', { policyId: policy.id, names })).map((job) => job(units)),
    notes: await notes(store, found),
    units,
  };
}

async function checkCounts(store: Store, policyId: string): Promise<CheckCount[]> {
  const rows = await store.rows<{ check_id: string; outcome: Outcome; n: number }>(query('check-counts'), [policyId]);
  return checks.map(({ id, question }) => {
    const counts = Object.fromEntries(
      outcomes.map((outcome) => [outcome, rows.find((row) => row.check_id === id && row.outcome === outcome)?.n ?? 0]),
    );
    return {
      checkId: id,
      question,
      pass: counts.pass,
      suspect: counts.suspect,
      fail: counts.fail,
      notEvaluated: counts['not-evaluated'],
      missing: counts.missing,
    };
  });
}

async function technicianCounts(store: Store, names: PeopleNames, codes: boolean): Promise<TechnicianCount[]> {
  const rows = await store.rows<{
    technician_id: string;
    crew_id: string | null;
    judged: number;
    flagged: number;
    not_judged: number;
  }>(query('technician-counts'));
  return rows.map((row) => {
    const { low, high } = wilsonInterval(row.flagged, row.judged);
    return {
      technicianId: codes ? names.technician(row.technician_id) : row.technician_id,
      name: names.technician(row.technician_id),
      crewId: row.crew_id === null ? null : names.crew(row.crew_id),
      judged: row.judged,
      flagged: row.flagged,
      low,
      high,
      notJudged: row.not_judged,
    };
  });
}

async function notes(store: Store, found: number): Promise<string[]> {
  const said: string[] = [];
  const [counts] = await store.rows<{ unjudged: number; recordless: number; stale: number; refused: number }>(`SELECT
    (SELECT count(*) FROM temp.job_outcomes WHERE NOT judged) AS unjudged,
    (SELECT count(*) FROM temp.job_outcomes WHERE started_at IS NULL) AS recordless,
    (SELECT count(*) FROM job_revisions r LEFT JOIN facts_made f USING (job_id) WHERE f.revision IS DISTINCT FROM r.revision) AS stale,
    (SELECT count(*) FROM rejects) AS refused`);
  if (counts.unjudged > 0)
    said.push(
      `${countText(counts.unjudged, 'job')} could not be judged by any check: no usable log and no usable record of the charge.`,
    );
  if (counts.recordless > 0)
    said.push(
      `Readings without a job record: ${countText(counts.recordless, 'job')}, whose day, crew and technician are not known.`,
    );
  if (counts.stale > 0)
    said.push(
      `Came in or changed since the last judging, and not in here as it stands now: ${countText(counts.stale, 'job')}. Run "dryhold judge", then "dryhold report" again.`,
    );
  if (counts.refused > 0)
    said.push(
      `Refused when they came in: ${countText(counts.refused, 'row or file', 'rows or files')}; "dryhold rejects" lists them.`,
    );
  if (found > mostEvidence)
    said.push(`In the last week ${countText(found, 'job')} are flagged; the worst ${mostEvidence} are shown.`);
  return said;
}

/** The day so many days before another; empty for an empty day. */
function daysBefore(day: string, days: number): string {
  if (day === '') return '';
  return dateOf(dayOf(day) - days);
}
