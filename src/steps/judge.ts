import { createHash } from 'node:crypto';
import { type Outcome, outcomes } from '../checks/check.ts';
import { checks } from '../checks/checks.ts';
import { asRecorded, type Policy } from '../checks/policy.ts';
import { methodVersion } from '../facts/method-version.ts';
import { nextCurve, takePart } from '../store/judged-part.ts';
import { query } from '../store/sql.ts';
import type { Store } from '../store/store.ts';
import { findCurveMatches } from './curve-matches.ts';
import { type FlaggedNow, flaggedNow } from './flagged-now.ts';
import { judgedParts } from './judge/judged-parts.ts';
import { type PlacelessTask, standingTasks, tasksToMeasure } from './judge/part-tasks.ts';
import { writingError } from '../store/writing-error.ts';

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
  const onJobs = (jobs: number) => {
    done += jobs;
    options.onProgress?.('jobs', Math.min(done, judged), judged);
  };
  const work = async () => {
    await store.run(query('clear-facts'));
    await store.run(query('clear-findings'), [policy.id]);
    await store.run(query('clear-findings-made'), [policy.id]);
    await store.run(query('clear-curves'));
    const from = await nextCurve(store);
    await take(store, policy, tasksToMeasure(store), measure, onJobs);
    const latest = { from, end: await nextCurve(store) };
    await store.run(query('mark-measured'), [methodVersion]);
    await findCurveMatches(store, latest, (curves, of) => options.onProgress?.('curves', curves, of));
    await store.run(query('jobs-to-tell'));
    await store.run(query('note-matches'));
    await store.run(query('standing-jobs'));
    await store.run(query('clear-told-findings'), [policy.id]);
    const [{ standing }] = await store.rows<{ standing: number }>(
      'SELECT count(*) AS standing FROM temp.standing_jobs',
    );
    await take(store, policy, standingTasks(store), standing, onJobs);
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

/** Judges tasks and takes in what is found. */
async function take(
  store: Store,
  policy: Policy,
  tasks: AsyncIterable<PlacelessTask>,
  jobs: number,
  onJobs: (jobs: number) => void,
): Promise<void> {
  if (jobs === 0) return;
  for await (const part of judgedParts(store, policy, tasks, jobs)) {
    await takePart(store, part.folder);
    onJobs(part.jobs);
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

async function countOutcomes(store: Store, policyId: string): Promise<Record<Outcome, number>> {
  const counts = Object.fromEntries(outcomes.map((outcome) => [outcome, 0])) as Record<Outcome, number>;
  const rows = await store.rows<{ outcome: Outcome; n: number }>(
    'SELECT outcome, count(*) AS n FROM findings WHERE policy_id = $1 GROUP BY outcome',
    [policyId],
  );
  for (const { outcome, n } of rows) counts[outcome] = n;
  return counts;
}
