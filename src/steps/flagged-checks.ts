import { checkNamed, checks } from '../checks/checks.ts';
import { messageText } from '../checks/message-text.ts';
import type { Evidence } from '../checks/check.ts';
import type { Store } from '../store/store.ts';
import type { InUnits } from '../units/in-units.ts';

/** A check that flagged a job. */
export interface FlaggedCheck {
  readonly checkId: string;
  readonly outcome: 'suspect' | 'fail';
  /** What was found. */
  readonly text: InUnits<string>;
}

/** The checks that flagged some jobs: of each job those that failed first, then in the order of the work. */
export async function flaggedChecks(
  store: Store,
  policyId: string,
  jobIds: readonly string[],
): Promise<ReadonlyMap<string, readonly FlaggedCheck[]>> {
  await store.fillRows(
    'asked_jobs',
    { job_id: 'VARCHAR' },
    [...new Set(jobIds)].map((id) => [id]),
  );
  const rows = await store.rows<{
    job_id: string;
    check_id: string;
    outcome: FlaggedCheck['outcome'];
    message_id: string;
    evidence: string | null;
  }>(
    `SELECT job_id, check_id, outcome, message_id, evidence FROM findings SEMI JOIN temp.asked_jobs USING (job_id)
     WHERE policy_id = $1 AND outcome IN ('suspect', 'fail')`,
    [policyId],
  );
  const place = new Map(checks.map(({ id }, at) => [id, at]));
  const rank = (row: (typeof rows)[number]): number =>
    (row.outcome === 'fail' ? 0 : checks.length) + (place.get(row.check_id) ?? 0);
  const ofJobs = Map.groupBy(
    rows.toSorted((a, b) => rank(a) - rank(b)),
    (row) => row.job_id,
  );
  return new Map([...ofJobs].map(([jobId, all]) => [jobId, all.map(flagged)]));

  function flagged(row: (typeof rows)[number]): FlaggedCheck {
    const check = checkNamed(row.check_id);
    const evidence = row.evidence === null ? {} : (JSON.parse(row.evidence) as Evidence);
    return {
      checkId: row.check_id,
      outcome: row.outcome,
      text: (units) => (check === undefined ? row.message_id : messageText(check, row.message_id, evidence, units)),
    };
  }
}
