import type { JudgedJob } from '../pages/job-page.ts';
import type { Store } from '../store/store.ts';
import type { InUnits } from '../units/in-units.ts';
import { jobEvidence } from './job-evidence.ts';
import { peopleNames } from './people-names.ts';
import { policyJudged } from './policy-judged.ts';

/**
 * One job by the policy judged last.
 *
 * @returns undefined where the store has no such job
 * @throws DryholdError `not-judged`
 */
export async function showJob(
  store: Store,
  jobId: string,
  { codes }: { readonly codes: boolean },
): Promise<InUnits<JudgedJob> | undefined> {
  const known = await store.rows('SELECT 1 FROM job_revisions WHERE job_id = $1', [jobId]);
  if (known.length === 0) return undefined;
  const policy = await policyJudged(store);
  await store.run('CREATE OR REPLACE TEMP TABLE shown AS SELECT $1 AS job_id', [jobId]);
  const [job] = await jobEvidence(store, 'shown', {
    policyId: policy.id,
    names: await peopleNames(store, codes),
  });
  return (units) => ({ ...job(units), policyId: policy.id, policyTitle: policy.title });
}
