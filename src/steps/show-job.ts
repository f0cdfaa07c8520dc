import type { JobEvidence } from '../pages/service-manager-data.ts';
import type { Store } from '../store/store.ts';
import { jobEvidence } from './job-evidence.ts';
import { peopleNames } from './people-names.ts';
import { policyJudged } from './policy-judged.ts';
import type { ReportOptions } from './report-data.ts';

/** A job and the policy that judged it. */
export interface ShownJob extends JobEvidence {
  readonly policyId: string;
  readonly policyTitle: string;
}

/**
 * One job by the policy judged last.
 *
 * @returns undefined where the store has no such job
 * @throws DryholdError `not-judged`
 */
export async function showJob(
  store: Store,
  jobId: string,
  { units, codes }: ReportOptions,
): Promise<ShownJob | undefined> {
  const known = await store.rows('SELECT 1 FROM job_revisions WHERE job_id = $1', [jobId]);
  if (known.length === 0) return undefined;
  const policy = await policyJudged(store);
  await store.run('CREATE OR REPLACE TEMP TABLE shown AS SELECT $1 AS job_id', [jobId]);
  const [job] = await jobEvidence(store, 'shown', {
    policyId: policy.id,
    names: await peopleNames(store, codes),
  });
  return { ...job(units), policyId: policy.id, policyTitle: policy.title };
}
