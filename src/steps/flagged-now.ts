import { faultRank, faultsOfSystems } from '../pages/sorted-findings.ts';
import { query } from '../store/sql.ts';
import type { Store } from '../store/store.ts';
import { type FlaggedCheck, flaggedChecks } from './flagged-checks.ts';

/** What was found on the jobs judged now. */
export interface FlaggedNow {
  /** Jobs judged now with a fail finding. */
  readonly failed: number;
  /** Jobs judged now with a fail or a suspect finding. */
  readonly flagged: number;
  /** The most pressing of them, each with its worst finding. */
  readonly first: readonly ({ readonly jobId: string } & FlaggedCheck)[];
}

/** So many jobs are named. */
const mostNamed = 5;

/** Finds what was flagged among the jobs in `temp.all_to_judge`. */
export async function flaggedNow(store: Store, policyId: string): Promise<FlaggedNow> {
  const rows = await store.rows<{ job_id: string; flagged: number; failed: number }>(query('flagged-now'), [
    policyId,
    faultsOfSystems.join(','),
    mostNamed,
  ]);
  const ids = rows.map((row) => row.job_id);
  const checksByJob = await flaggedChecks(store, policyId, ids);
  return {
    failed: rows.at(0)?.failed ?? 0,
    flagged: rows.at(0)?.flagged ?? 0,
    first: ids.flatMap((jobId) => {
      const [worst] = (checksByJob.get(jobId) ?? []).toSorted((a, b) => placeOf(a) - placeOf(b));
      return worst === undefined ? [] : [{ jobId, ...worst }];
    }),
  };
}

/** As the page of a job has it: what failed first, then what is wrong with a system before how the work was done. */
function placeOf(check: FlaggedCheck): number {
  return faultRank(check) + (check.outcome === 'fail' ? 0 : faultsOfSystems.length + 1);
}
