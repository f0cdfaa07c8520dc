import { join } from 'node:path';
import { renderCoachPage } from '../pages/coach-page.ts';
import { renderJobPage } from '../pages/job-page.ts';
import { renderOwnerPage } from '../pages/owner-page.ts';
import { pageFileName } from '../pages/page-file-name.ts';
import { jobsFolder, reportPlaces, sheetsFolder } from '../pages/report-places.ts';
import { renderServiceManagerPage } from '../pages/service-manager-page.ts';
import { renderStartPage } from '../pages/start-page.ts';
import { renderTrainerPage } from '../pages/trainer-page.ts';
import type { Store } from '../store/store.ts';
import { callbackReportOf } from './callback-report.ts';
import { coachReportsOf } from './coach-report.ts';
import { ownerData } from './owner-data.ts';
import { mostApart } from './report/kept-apart.ts';
import { PageFolder } from './report/page-folder.ts';
import { reportCells } from './report/report-cells.ts';
import { mostWatched, reportJobs } from './report/report-jobs.ts';
import { openReport, type ReportOptions } from './report/report-scope.ts';
import { serviceManagerData } from './report/service-manager-data.ts';
import { sheetFile, trainerData } from './report/trainer-data.ts';
import { riskReportOf } from './risk-report.ts';
import { trainerFleet } from './trainer-fleet.ts';
import { whoNeedsSheets } from './who-needs-sheets.ts';

/** What a report wrote, and what its first lines say. */
export interface ReportResult {
  /** The path of the start page. */
  readonly page: string;
  readonly pages: { readonly serviceManager: string; readonly trainer: string; readonly owner: string };
  /** How many coaching sheets and pages of jobs there are beside them. */
  readonly sheets: number;
  readonly jobPages: number;
  readonly jobs: number;
  /** Jobs that at least one check could judge. */
  readonly jobsJudged: number;
  /** Jobs of those with a suspect or fail finding. */
  readonly jobsFlagged: number;
  /** The job to look at first: the first to send somebody back to, else the worst of the last week; null where there is neither. */
  readonly lookFirst: string | null;
}

const steps = 8;

/**
 * Writes the readers' pages into a folder: the start page, one for each reader, a coaching sheet for each technician and crew, and a page for each
 * job worth opening.
 *
 * @throws DryholdError `not-judged`, `output-unwritable`
 */
export async function report(store: Store, outDir: string, options: ReportOptions): Promise<ReportResult> {
  const { reader, codes, onProgress = () => undefined } = options;
  onProgress(0, steps, 'jobs and callbacks');
  const scope = await openReport(store, codes);
  const { open, counts } = scope;
  onProgress(1, steps, 'what foretells callbacks');
  const callbacks = await callbackReportOf(store, open);
  onProgress(2, steps, 'open jobs');
  const risk = await riskReportOf(store, open, { top: mostWatched });
  onProgress(3, steps, 'skills');
  const fleet = await trainerFleet(store, open.fleet);
  onProgress(4, steps, 'coaching sheets');
  const sheets = (await coachReportsOf(store, open, whoNeedsSheets(open.fleet, mostApart.sheets))).map((told) => ({
    file: sheetFile(told(reader.units).who),
    report: told,
  }));
  onProgress(5, steps, 'recordings');
  const jobs = await reportJobs(scope, callbacks, risk(reader.units).watchList);
  const cells = await reportCells(scope);
  const manager = await serviceManagerData(scope, { callbacks, risk }, jobs, cells);
  const trainer = trainerData(scope, { fleet, sheets }, cells, new Set(jobs.evidence.keys()));
  onProgress(6, steps, 'refrigerant');
  const told = await ownerData(store, { codes });
  const owner = (units: typeof reader.units) => ({ ...told, units });
  onProgress(7, steps, 'pages');
  const jobFile = (jobId: string) => `${jobsFolder}/${pageFileName(jobId)}`;
  const folder = await PageFolder.open(outDir, [
    ...sheets.map(({ file }) => `${sheetsFolder}/${file}`),
    ...[...jobs.evidence.keys()].map(jobFile),
  ]);
  const pages = new Set(jobs.evidence.keys());
  const { id: policyId, title: policyTitle } = scope.policy;
  for (const [jobId, job] of jobs.evidence)
    await folder.write(
      jobFile(jobId),
      await renderJobPage((units) => ({ ...job(units), policyId, policyTitle }), reader, 'in-report'),
    );
  for (const sheet of sheets)
    await folder.write(`${sheetsFolder}/${sheet.file}`, await renderCoachPage(sheet.report, reader, pages));
  await folder.write(reportPlaces.owner.file, await renderOwnerPage(owner, reader));
  await folder.write(reportPlaces.trainer.file, await renderTrainerPage(trainer, reader));
  await folder.write(reportPlaces['service-manager'].file, await renderServiceManagerPage(manager, reader));
  await folder.write(
    reportPlaces.start.file,
    await renderStartPage(
      (units) => ({ manager: manager(units), trainer: trainer(units), owner: owner(units) }),
      reader,
    ),
  );
  await folder.close();
  onProgress(steps, steps, 'done');
  const { sendBack } = manager(reader.units);
  return {
    page: join(outDir, reportPlaces.start.file),
    pages: {
      serviceManager: join(outDir, reportPlaces['service-manager'].file),
      trainer: join(outDir, reportPlaces.trainer.file),
      owner: join(outDir, reportPlaces.owner.file),
    },
    sheets: sheets.length,
    jobPages: jobs.evidence.size,
    jobs: counts.jobs,
    jobsJudged: counts.judged,
    jobsFlagged: counts.flagged,
    lookFirst: sendBack[0]?.job.jobId ?? jobs.lookAt[0] ?? null,
  };
}
