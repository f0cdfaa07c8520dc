import type { LimitPoint } from '../../charts/limit-margins.ts';
import type { ServiceManagerData } from '../../pages/service-manager-data.ts';
import { query } from '../../store/sql.ts';
import type { Store } from '../../store/store.ts';
import { labelText } from '../label-text.ts';

/** So many points are shown; of more nobody could tell one from the other. */
export const mostLimitPoints = 1200;

/**
 * How far each job's rise ended from its own limit; `job-crews` and `readJobCells` come first.
 *
 * @param most of more some are drawn: half of them flagged and half within, more of one kind where there are few of the other
 */
export async function limitPoints(
  store: Store,
  policyId: string,
  most: number,
): Promise<ServiceManagerData['limitPoints']> {
  const rows = await store.rows<Omit<LimitPoint, 'job'> & { job_id: string; of: number; flagged: number }>(
    query('limit-points'),
    [policyId, most],
  );
  return {
    rows: rows.map(({ job_id: job, of: _, flagged: __, refrigerant, ...point }) => ({
      ...point,
      refrigerant: labelText(refrigerant),
      job,
    })),
    of: rows[0]?.of ?? 0,
    flagged: rows[0]?.flagged ?? 0,
  };
}
