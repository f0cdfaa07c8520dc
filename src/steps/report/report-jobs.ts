import { checks } from '../../checks/checks.ts';
import { mostCallbacks } from '../../pages/callbacks-section.ts';
import { mostLookedAt } from '../../pages/flagged-section.ts';
import type { JobEvidence } from '../../pages/job-evidence-data.ts';
import { faultsOfSystems } from '../../pages/sorted-findings.ts';
import type { InUnits } from '../../units/in-units.ts';
import { query } from '../../store/sql.ts';
import { jobEvidence } from '../job-evidence.ts';
import type { ReportScope } from './report-scope.ts';

/** So many of the watch list have a page. */
export const mostWatched = 12;

/** What was found on jobs that have a page of their own, by job. */
export type EvidenceByJob = ReadonlyMap<string, InUnits<JobEvidence>>;

/** Flagged jobs of the last week. */
export interface FlaggedJobs {
  /** Those that are looked at, worst first. */
  readonly lookAt: readonly string[];
  /** Those to go back to, the most pressing first, and how many there are: something failed that asks for a visit, and nothing was done since. */
  readonly visits: readonly string[];
  readonly visitsOf: number;
}

/** So many of those to go back to are told. */
const mostVisits = 30;

/** Finds the flagged jobs of the last week. */
export async function flaggedJobs({ store, policy, week, open: { courses } }: ReportScope): Promise<FlaggedJobs> {
  const ofRecord = checks.filter(({ revisit }) => revisit === 'record').map(({ id }) => id);
  const rows = await store.rows<{ job_id: string; place: number; rank: number | null }>(query('flagged-jobs'), [
    policy.id,
    week.from,
    week.to,
    faultsOfSystems.join(','),
    ofRecord.join(','),
  ]);
  const isOpen = (place: number): boolean =>
    courses.callbackDays[place] === Number.POSITIVE_INFINITY && courses.nextDays[place] === Number.POSITIVE_INFINITY;
  const visits = rows.filter(({ place, rank }) => rank !== null && isOpen(place));
  return {
    lookAt: rows.slice(0, mostLookedAt).map(({ job_id: id }) => id),
    visits: visits.slice(0, mostVisits).map(({ job_id: id }) => id),
    visitsOf: visits.length,
  };
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
