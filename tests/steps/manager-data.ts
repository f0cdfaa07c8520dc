import type { ServiceManagerData } from '../../src/pages/service-manager-data.ts';
import { callbackReportOf } from '../../src/steps/callback-report.ts';
import { reportCells } from '../../src/steps/report/report-cells.ts';
import { calledBackJobs, evidenceByJob, flaggedJobs, mostWatched } from '../../src/steps/report/report-jobs.ts';
import { openReport } from '../../src/steps/report/report-scope.ts';
import { serviceManagerData } from '../../src/steps/report/service-manager-data.ts';
import { riskReportOf } from '../../src/steps/risk-report.ts';
import type { Store } from '../../src/store/store.ts';
import type { InUnits } from '../../src/units/in-units.ts';

/** What the service manager's page is made of. */
export async function managerData(store: Store, codes: boolean): Promise<InUnits<ServiceManagerData>> {
  const scope = await openReport(store, codes);
  const callbacks = await callbackReportOf(store, scope.open);
  const risk = await riskReportOf(store, scope.open, { top: mostWatched });
  const flagged = await flaggedJobs(scope);
  const watched = risk('ip').watchList.map(({ jobId }) => jobId);
  const evidence = await evidenceByJob(scope, [
    ...flagged.visits,
    ...flagged.lookAt,
    ...calledBackJobs(scope),
    ...watched,
  ]);
  return serviceManagerData(scope, { callbacks, risk }, { evidence, flagged }, await reportCells(scope));
}

/** One row per job: its crew on the day, whether judged, whether flagged. */
export const perJob = `WITH per_job AS (
  SELECT j.job_id, j.technician_id, j.system_id, j.refrigerant, j.started_at[1:10] AS day, j.started_at[1:7] AS month, coalesce(j.crew_id, m.crew_id) AS crew,
    (SELECT count(*) FROM findings f WHERE f.job_id = j.job_id AND f.outcome IN ('pass', 'suspect', 'fail')) > 0 AS judged,
    (SELECT count(*) FROM findings f WHERE f.job_id = j.job_id AND f.outcome = 'fail')::INTEGER AS fails,
    (SELECT count(*) FROM findings f WHERE f.job_id = j.job_id AND f.outcome = 'suspect')::INTEGER AS suspects
  FROM jobs j LEFT JOIN memberships m ON m.technician_id = j.technician_id
    AND m.from_on <= j.started_at[1:10]::DATE AND coalesce(m.to_on, '9999-12-31'::DATE) >= j.started_at[1:10]::DATE)`;
