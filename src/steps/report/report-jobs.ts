import { mostCallbacks } from '../../pages/callbacks-section.ts';
import { mostLookedAt } from '../../pages/flagged-section.ts';
import type { JobEvidence } from '../../pages/job-evidence-data.ts';
import type { InUnits } from '../../units/in-units.ts';
import { query } from '../../store/sql.ts';
import { jobEvidence } from '../job-evidence.ts';
import type { ReportScope } from './report-scope.ts';

/** So many of the watch list have a page. */
export const mostWatched = 12;

/** What was found on jobs that have a page of their own, by job. */
export type EvidenceByJob = ReadonlyMap<string, InUnits<JobEvidence>>;

/** The jobs of the last week that are looked at, worst first. */
export async function flaggedJobs({ store, policy, week }: ReportScope): Promise<string[]> {
  const rows = await store.rows<{ job_id: string }>(query('flagged-jobs'), [
    policy.id,
    week.from,
    week.to,
    mostLookedAt,
  ]);
  return rows.map(({ job_id: id }) => id);
}

/** The jobs of the latest callbacks. */
export function calledBackJobs({ open }: ReportScope): string[] {
  return open.callbacks.slice(-mostCallbacks).flatMap(({ jobId }) => (jobId === null ? [] : [jobId]));
}

/** Reads what was found on some jobs, and their recordings. */
export async function evidenceByJob(
  { store, policy, open }: ReportScope,
  ids: Iterable<string>,
): Promise<EvidenceByJob> {
  const wanted = [...new Set(ids)];
  if (wanted.length === 0) return new Map();
  await store.fillRows(
    'report_jobs',
    { job_id: 'VARCHAR' },
    wanted.map((id) => [id]),
  );
  const evidence = await jobEvidence(store, 'report_jobs', { policyId: policy.id, names: open.fleet.names });
  return new Map(wanted.map((id, at) => [id, evidence[at]]));
}
