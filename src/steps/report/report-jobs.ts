import type { CallbackReport, RiskReport } from '../../pages/callback-data.ts';
import { mostCallbacks } from '../../pages/callbacks-section.ts';
import { mostLookedAt } from '../../pages/flagged-section.ts';
import type { JobEvidence } from '../../pages/service-manager-data.ts';
import type { InUnits } from '../../units/in-units.ts';
import { jobEvidence } from '../job-evidence.ts';
import type { ReportScope } from './report-scope.ts';

/** The jobs that a report has pages of: flagged ones of the last week, those on the watch list, and those of the latest callbacks. */
export interface ReportJobs {
  /** By job. */
  readonly evidence: ReadonlyMap<string, InUnits<JobEvidence>>;
  /** Flagged jobs of the last week, worst first. */
  readonly lookAt: readonly string[];
}

/** So many of the watch list have a page. */
export const mostWatched = 12;

/** Reads what was found on the jobs that a report has pages of, and their recordings. */
export async function reportJobs(
  { store, policy, week, open }: ReportScope,
  callbacks: CallbackReport,
  watchList: RiskReport['watchList'],
): Promise<ReportJobs> {
  const lookAt = await store.rows<{ job_id: string }>(
    `SELECT job_id FROM temp.job_outcomes WHERE flagged AND day BETWEEN $1 AND $2
     ORDER BY fails DESC, suspects DESC, started_at DESC, job_id LIMIT ${mostLookedAt}`,
    [week.from, week.to],
  );
  const wanted = new Set([
    ...lookAt.map(({ job_id: id }) => id),
    ...watchList.map(({ jobId }) => jobId),
    ...callbacks.entries.slice(0, mostCallbacks).flatMap(({ jobId }) => (jobId === null ? [] : [jobId])),
  ]);
  await store.fillRows(
    'report_jobs',
    { job_id: 'VARCHAR' },
    [...wanted].map((id) => [id]),
  );
  const evidence = await jobEvidence(store, 'report_jobs', { policyId: policy.id, names: open.fleet.names });
  return {
    evidence: new Map([...wanted].map((id, at) => [id, evidence[at]])),
    lookAt: lookAt.map(({ job_id: id }) => id),
  };
}
