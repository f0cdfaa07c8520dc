import { type Outcome, outcomes } from '../checks/check.ts';
import { asRecorded, type Policy } from '../checks/policy.ts';
import { methodVersion } from '../facts/method-version.ts';
import { nextCurve } from '../store/judged-part.ts';
import { query } from '../store/sql.ts';
import type { Store } from '../store/store.ts';
import { findCurveMatches } from './curve-matches.ts';
import { type FlaggedNow, flaggedNow } from './flagged-now.ts';
import { standingTasks, tasksToMeasure } from './judge/part-tasks.ts';
import { policyContent } from './judge/policy-content.ts';
import { type Judging, takeParts } from './judge/take-parts.ts';
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

/** Where the facts of jobs come from. */
export interface FactsSource {
  /** Narrows `temp.jobs_to_measure` and `temp.jobs_to_judge` down to the jobs that are meant; absent: all are. */
  readonly narrow?: () => Promise<void>;
  /** Takes in facts, findings and prints of the jobs in `temp.jobs_to_measure`, numbering curves by the place of their readings. */
  readonly take: (judging: Judging) => Promise<void>;
}

/**
 * Makes facts and findings for every job that needs them, and makes them known in one transaction.
 *
 * A job needs facts when its revision or the method is newer than its facts; it needs findings when its facts are made
 * anew, or when the policy or the checks changed: then the facts that stand are enough.
 */
export function judge(store: Store, options: JudgeOptions = {}): Promise<JudgeResult> {
  return judgeBy(store, { take: (judging) => takeParts(store, tasksToMeasure(store), judging) }, options);
}

/** The same by facts from anywhere. */
export async function judgeBy(store: Store, source: FactsSource, options: JudgeOptions = {}): Promise<JudgeResult> {
  const policy = options.policy ?? asRecorded;
  const { content, digest } = policyContent(policy);
  await store.run(query('jobs-to-measure'), [methodVersion]);
  await store.run(query('jobs-to-judge'), [policy.id, digest]);
  await source.narrow?.();
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
    if (measure > 0) await source.take({ policy, jobs: measure, onJobs });
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
    await takeParts(store, standingTasks(store), { policy, jobs: standing, onJobs });
    await store.run(query('mark-judged'), [policy.id, digest]);
    await store.run(query('note-policy'), [policy.id, content]);
  };
  await store.holdInMemory('spare');
  try {
    await store.transaction(work);
  } catch (error) {
    throw writingError(store.folder, error);
  } finally {
    await store.holdInMemory('usual');
  }
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

async function countOutcomes(store: Store, policyId: string): Promise<Record<Outcome, number>> {
  const counts = Object.fromEntries(outcomes.map((outcome) => [outcome, 0])) as Record<Outcome, number>;
  const rows = await store.rows<{ outcome: Outcome; n: number }>(
    'SELECT outcome, count(*) AS n FROM findings WHERE policy_id = $1 GROUP BY outcome',
    [policyId],
  );
  for (const { outcome, n } of rows) counts[outcome] = n;
  return counts;
}
