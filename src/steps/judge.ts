import { type Outcome, outcomes } from '../checks/check.ts';
import { checks } from '../checks/checks.ts';
import { asRecorded, type Policy, resolveLimits } from '../checks/policy.ts';
import { jobFacts } from '../facts/job-facts.ts';
import { methodVersion } from '../facts/method-version.ts';
import { type Facts, facts as factsTable } from '../records/tables/facts.ts';
import { findings as findingsTable } from '../records/tables/findings.ts';
import { type Job, jobs as jobsTable } from '../records/tables/jobs.ts';
import { recordsBy } from '../store/record-lookup.ts';
import { query } from '../store/sql.ts';
import type { Store } from '../store/store.ts';
import { TableWriter } from '../store/table-writer.ts';
import { jobMaterials } from './job-materials.ts';

export interface JudgeOptions {
  readonly policy?: Policy;
  readonly onProgress?: (done: { jobs: number; of: number }) => void;
}

/** What a judging did. */
export interface JudgeResult {
  /** Jobs judged now; those judged already, with the same revision, method and policy, are left alone. */
  readonly judged: number;
  readonly policyId: string;
  /** Findings by outcome, over all jobs of the store under this policy. */
  readonly outcomes: Record<Outcome, number>;
}

/** Findings are made for so many jobs at once, so that memory does not grow with the fleet. */
const batchJobs = 5000;

/**
 * Makes facts, then findings, for every job that needs them; each of the two steps is one transaction.
 *
 * A job needs facts when its revision or the method is newer than its facts; it needs findings when its facts were made
 * anew or the policy or the checks changed.
 */
export async function judge(store: Store, options: JudgeOptions = {}): Promise<JudgeResult> {
  const policy = options.policy ?? asRecorded;
  const content = contentOf(policy);
  await measure(store, options.onProgress);
  await store.run(query('jobs-to-judge'), [policy.id, content]);
  const [{ n }] = await store.rows<{ n: number }>('SELECT count(*) AS n FROM temp.jobs_to_judge');
  await store.transaction(async () => {
    if (n > 0) {
      await writeFindings(store, policy, n);
      await store.run(query('mark-judged'), [policy.id, content]);
    }
    await store.run(query('note-policy'), [policy.id, content]);
  });
  return { judged: n, policyId: policy.id, outcomes: await countOutcomes(store, policy.id) };
}

/** What findings rest on beside the facts: the policy's limits and the checks' own. */
function contentOf(policy: Policy): string {
  const defaults = checks.map(({ id, limits }) => [
    id,
    Object.entries(limits).map(([name, spec]) => [name, spec.default]),
  ]);
  return JSON.stringify({ policy, defaults });
}

async function measure(store: Store, onProgress: JudgeOptions['onProgress']): Promise<void> {
  await store.run(query('jobs-to-measure'), [methodVersion]);
  const [{ n }] = await store.rows<{ n: number }>('SELECT count(*) AS n FROM temp.jobs_to_measure');
  if (n === 0) return;
  const writer = await TableWriter.begin(store, factsTable);
  let jobs = 0;
  for await (const material of jobMaterials(store, 'jobs_to_measure')) {
    writer.append(jobFacts(material));
    jobs += 1;
    if (jobs % 100 === 0) onProgress?.({ jobs, of: n });
  }
  await store.transaction(async () => {
    await writer.replace(['job_id']);
    await store.run(query('mark-measured'), [methodVersion]);
  });
}

async function writeFindings(store: Store, policy: Policy, n: number): Promise<void> {
  const writer = await TableWriter.begin(store, findingsTable);
  for (let start = 0; start < n; start += batchJobs) {
    await store.run(
      `CREATE OR REPLACE TEMP TABLE batch AS SELECT job_id FROM temp.jobs_to_judge LIMIT ${batchJobs} OFFSET ${start}`,
    );
    const factsByJob = await recordsBy<Facts>(store, factsTable, 'job_id', 'temp.batch');
    const jobsById = await recordsBy<Job>(store, jobsTable, 'job_id', 'temp.batch');
    for (const [jobId, [facts]] of factsByJob) {
      for (const finding of findingsOf(facts, jobsById.get(jobId)?.[0], policy)) writer.append(finding);
    }
  }
  await writer.replace(['job_id', 'policy_id']);
}

/** One finding per check. */
export function findingsOf(facts: Facts, job: Job | undefined, policy: Policy): Record<string, unknown>[] {
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
