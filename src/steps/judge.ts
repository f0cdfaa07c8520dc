import { createHash } from 'node:crypto';
import { type Outcome, outcomes } from '../checks/check.ts';
import { checks } from '../checks/checks.ts';
import { asRecorded, type Policy, resolveLimits } from '../checks/policy.ts';
import { methodVersion } from '../facts/method-version.ts';
import { type Facts, facts as factsTable } from '../records/tables/facts.ts';
import { findings as findingsTable } from '../records/tables/findings.ts';
import { type Job, jobs as jobsTable } from '../records/tables/jobs.ts';
import { CurveAppender, type CurveRange } from '../store/curve-prints.ts';
import { recordsBy } from '../store/record-lookup.ts';
import { RowAppender } from '../store/row-appender.ts';
import { query } from '../store/sql.ts';
import type { Store } from '../store/store.ts';
import { findCurveMatches } from './curve-matches.ts';
import { type FlaggedNow, flaggedNow } from './flagged-now.ts';
import { writingError } from '../store/writing-error.ts';
import { measuredJobs } from './measured-jobs.ts';

export interface JudgeOptions {
  readonly policy?: Policy;
  /** Told how many are done of how many: jobs judged, and then curves of theirs held beside those of other jobs. */
  readonly onProgress?: (what: 'jobs' | 'curves', done: number, of: number) => void;
}

/** What a judging did. */
export interface JudgeResult {
  /** Jobs judged now; those judged already, with the same revision, method and policy, are left alone. */
  readonly judged: number;
  readonly policyId: string;
  /** Pairs of jobs, over the whole store, in which the same pressure curve stands. */
  readonly matches: number;
  /** Findings by outcome, over all jobs of the store under this policy. */
  readonly outcomes: Record<Outcome, number>;
  /** What was found on the jobs judged now. */
  readonly now: FlaggedNow;
}

/** Jobs whose facts stand are judged so many at once, so that memory does not grow with the fleet. */
const batchJobs = 5000;

/**
 * Makes facts and findings for every job that needs them, and makes them known in one transaction.
 *
 * A job needs facts when its revision or the method is newer than its facts; it needs findings when its facts are made
 * anew, or when the policy or the checks changed: then the facts that stand are enough.
 */
export async function judge(store: Store, options: JudgeOptions = {}): Promise<JudgeResult> {
  const policy = options.policy ?? asRecorded;
  const content = contentOf(policy);
  const digest = createHash('sha256').update(content).digest('hex');
  await store.run(query('jobs-to-measure'), [methodVersion]);
  await store.run(query('jobs-to-judge'), [policy.id, digest]);
  await store.run(query('all-to-judge'));
  const [{ measure, rejudge }] = await store.rows<{ measure: number; rejudge: number }>(
    'SELECT (SELECT count(*) FROM temp.jobs_to_measure) AS measure, (SELECT count(*) FROM temp.jobs_to_judge) AS rejudge',
  );
  const judged = measure + rejudge;
  let done = 0;
  const onJob = () => {
    done += 1;
    if (done % 100 === 0 || done === judged) options.onProgress?.('jobs', Math.min(done, judged), judged);
  };
  const work = async () => {
    await store.run(query('clear-facts'));
    await store.run(query('clear-findings'), [policy.id]);
    await store.run(query('clear-findings-made'), [policy.id]);
    await store.run(query('clear-curves'));
    const latest = await measureAll(store, policy, onJob);
    await store.run(query('mark-measured'), [methodVersion]);
    await findCurveMatches(store, latest, (curves, of) => options.onProgress?.('curves', curves, of));
    await store.run(query('jobs-to-tell'));
    await store.run(query('note-matches'));
    await judgeStanding(store, policy, onJob);
    await store.run(query('mark-judged'), [policy.id, digest]);
    await store.run(query('note-policy'), [policy.id, content]);
  };
  await store.transaction(work).catch((error: unknown) => {
    throw writingError(store.folder, error);
  });
  const [{ matches }] = await store.rows<{ matches: number }>(
    'SELECT count(DISTINCT (job_id, other_job_id)) AS matches FROM curve_matches',
  );
  return {
    judged,
    policyId: policy.id,
    matches,
    outcomes: await countOutcomes(store, policy.id),
    now: await flaggedNow(store, policy.id),
  };
}

/**
 * Measures the jobs in `temp.jobs_to_measure` and judges them by what their own readings show.
 *
 * @returns the curves that were taken in with them
 */
async function measureAll(store: Store, policy: Policy, onJob: () => void): Promise<CurveRange> {
  const facts = await RowAppender.begin(store, factsTable);
  const findings = await RowAppender.begin(store, findingsTable);
  const curves = await CurveAppender.begin(store);
  try {
    for await (const measured of measuredJobs(store, 'jobs_to_measure')) {
      facts.append(measured.facts);
      for (const finding of findingsOf(measured.facts, measured.records.job, policy)) findings.append(finding);
      for (const print of measured.prints) curves.append(measured.facts.job_id, print);
      onJob();
    }
    for (const appender of [facts, findings, curves]) appender.end();
  } catch (error) {
    for (const appender of [facts, findings, curves]) appender.abandon();
    throw error;
  }
  return curves.range;
}

/** Judges the jobs whose facts stand, and those of which another job now says something, by their facts. */
async function judgeStanding(store: Store, policy: Policy, onJob: () => void): Promise<void> {
  await store.run(query('standing-jobs'));
  await store.run(query('clear-told-findings'), [policy.id]);
  const [{ count }] = await store.rows<{ count: number }>('SELECT count(*) AS count FROM temp.standing_jobs');
  const findings = await RowAppender.begin(store, findingsTable);
  try {
    for await (const standing of standingFacts(store, count)) {
      for (const finding of findingsOf(standing.facts, standing.job, policy)) findings.append(finding);
      onJob();
    }
    findings.end();
  } catch (error) {
    findings.abandon();
    throw error;
  }
}

/** What findings rest on beside the facts: the policy's limits and the checks' own. */
function contentOf(policy: Policy): string {
  const defaults = checks.map(({ id, limits }) => [
    id,
    Object.entries(limits).map(([name, spec]) => [name, spec.default]),
  ]);
  return JSON.stringify({ policy, defaults });
}

/** The facts and records of the jobs in `temp.standing_jobs`. */
async function* standingFacts(store: Store, count: number): AsyncGenerator<{ facts: Facts; job: Job | undefined }> {
  for (let start = 0; start < count; start += batchJobs) {
    await store.run(
      `CREATE OR REPLACE TEMP TABLE batch AS SELECT job_id FROM temp.standing_jobs LIMIT ${batchJobs} OFFSET ${start}`,
    );
    const factsByJob = await recordsBy<Facts>(store, factsTable, 'job_id', 'temp.batch');
    const jobsById = await recordsBy<Job>(store, jobsTable, 'job_id', 'temp.batch');
    for (const [jobId, [facts]] of factsByJob) yield { facts, job: jobsById.get(jobId)?.[0] };
  }
}

/** One finding per check. */
function findingsOf(facts: Facts, job: Job | undefined, policy: Policy): Record<string, unknown>[] {
  return checks.map((check) => {
    const judgement = check.judge(facts, resolveLimits(check, policy, job));
    return {
      job_id: facts.job_id,
      check_id: check.id,
      outcome: judgement.outcome,
      message_id: judgement.message,
      value: judgement.value,
      limit_value: judgement.limit,
      unit: judgement.unit,
      evidence: JSON.stringify(judgement.evidence),
      policy_id: policy.id,
    };
  });
}

async function countOutcomes(store: Store, policyId: string): Promise<Record<Outcome, number>> {
  const counts = Object.fromEntries(outcomes.map((outcome) => [outcome, 0])) as Record<Outcome, number>;
  const rows = await store.rows<{ outcome: Outcome; n: number }>(
    'SELECT outcome, count(*) AS n FROM findings WHERE policy_id = $1 GROUP BY outcome',
    [policyId],
  );
  for (const { outcome, n } of rows) counts[outcome] = n;
  return counts;
}
