import { join } from 'node:path';
import type { JudgedJob } from '../pages/job-page.ts';
import type { OwnerData } from '../pages/owner-data.ts';
import { renderOwnerPage } from '../pages/owner-page.ts';
import { pageFileName } from '../pages/page-file-name.ts';
import { jobsFolder, reportPlaces, sheetsFolder } from '../pages/report-places.ts';
import { renderServiceManagerPage } from '../pages/service-manager-page.ts';
import { renderStartPage } from '../pages/start-page.ts';
import { mostTrainings, renderTrainerPage } from '../pages/trainer-page.ts';
import type { Store } from '../store/store.ts';
import type { InUnits } from '../units/in-units.ts';
import { callbackReportOf } from './callback-report.ts';
import type { ChangesThread } from './changes-thread.ts';
import { coachReportsOf } from './coach-report.ts';
import { askedChanges } from './fleet-report.ts';
import { LookBackThread } from './look-back-thread.ts';
import { OwnerThread, ownerPlace } from './owner-thread.ts';
import { mostApart } from './report/most-apart.ts';
import { PageFolder } from './report/page-folder.ts';
import { type PageTask, toldBoth } from './report/page-task.ts';
import { PageThread } from './report/page-thread.ts';
import { reportCells } from './report/report-cells.ts';
import { calledBackJobs, type EvidenceByJob, evidenceByJob, flaggedJobs, mostWatched } from './report/report-jobs.ts';
import { openReport, type ReportOptions, type ReportScope } from './report/report-scope.ts';
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
 * Writes the readers' pages into a folder: the start page, one for each reader, coaching sheets for technicians and crews, and a page for each
 * job worth opening.
 *
 * @throws DryholdError `not-judged`, `output-unwritable`
 */
export async function report(store: Store, outDir: string, options: ReportOptions): Promise<ReportResult> {
  const thread = new PageThread(options.reader);
  let beside: Beside | undefined;
  try {
    options.onProgress?.(0, steps, 'jobs and callbacks');
    const scope = await openReport(store, options.codes);
    // Only now: until here all cores read.
    beside = {
      owner: new OwnerThread(store, options, await ownerPlace(store)),
      past: new LookBackThread(scope.open),
      changes: askedChanges(scope.open.fleet),
      thread,
    };
    return await reportOf(scope, outDir, options, beside);
  } finally {
    await Promise.allSettled([beside?.changes.close(), beside?.past.close(), thread.close()]);
    await beside?.owner.close();
  }
}

/** What works beside the main thread. */
interface Beside {
  readonly owner: OwnerThread;
  readonly thread: PageThread;
  readonly changes: ChangesThread;
  readonly past: LookBackThread;
}

async function reportOf(
  scope: ReportScope,
  outDir: string,
  { reader, onProgress = () => undefined }: ReportOptions,
  { owner, thread, changes, past }: Beside,
): Promise<ReportResult> {
  const { store, open, counts } = scope;
  onProgress(1, steps, 'recordings');
  const flagged = await flaggedJobs(scope);
  const firstJobs = await evidenceByJob(scope, [...flagged.visits, ...flagged.lookAt, ...calledBackJobs(scope)]);
  const pages = new Map<string, () => Promise<string>>();
  const begin = (tasks: ReadonlyMap<string, PageTask>): void => {
    for (const [at, page] of thread.render([...tasks.values()]).entries()) pages.set([...tasks.keys()][at], page);
  };
  begin(jobTasks(scope, firstJobs));
  onProgress(2, steps, 'what foretells callbacks');
  const callbacks = await callbackReportOf(store, open);
  onProgress(3, steps, 'skills');
  const fleet = await trainerFleet(store, open.fleet, { trainings: mostTrainings }, changes);
  const cells = await reportCells(scope);
  onProgress(4, steps, 'open jobs');
  const risk = await riskReportOf(store, open, { top: mostWatched }, () => past.record());
  const watched = risk(reader.units).watchList.map(({ jobId }) => jobId);
  const moreJobs = await evidenceByJob(
    scope,
    watched.filter((id) => !firstJobs.has(id)),
  );
  begin(jobTasks(scope, moreJobs));
  const evidence = new Map([...firstJobs, ...moreJobs]);
  const jobPages = new Set(evidence.keys());
  onProgress(5, steps, 'coaching sheets');
  const sheets = (await coachReportsOf(store, open, whoNeedsSheets(open.fleet, mostApart.sheets))).map((told) => ({
    file: sheetFile(told(reader.units).who),
    report: told,
  }));
  begin(
    new Map(
      sheets.map(({ file, report: told }): [string, PageTask] => [
        `${sheetsFolder}/${file}`,
        { kind: 'sheet', report: toldBoth(told), pages: jobPages },
      ]),
    ),
  );
  const manager = await serviceManagerData(scope, { callbacks, risk }, { evidence, flagged }, cells);
  const trainer = await trainerData(scope, { fleet, sheets }, cells, jobPages);
  onProgress(6, steps, 'refrigerant');
  const figures = await owner.data();
  const ownerData: InUnits<OwnerData> = (units) => ({ ...figures, units });
  onProgress(7, steps, 'pages');
  const folder = await PageFolder.open(outDir, [...pages.keys()]);
  for (const [file, page] of pages) await folder.write(file, await page());
  await folder.write(reportPlaces.owner.file, await renderOwnerPage(ownerData, reader));
  await folder.write(reportPlaces.trainer.file, await renderTrainerPage(trainer, reader));
  await folder.write(reportPlaces['service-manager'].file, await renderServiceManagerPage(manager, reader));
  await folder.write(
    reportPlaces.start.file,
    await renderStartPage(
      (units) => ({ manager: manager(units), trainer: trainer(units), owner: ownerData(units) }),
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
    jobPages: evidence.size,
    jobs: counts.jobs,
    jobsJudged: counts.judged,
    jobsFlagged: counts.flagged,
    lookFirst: sendBack[0]?.job.jobId ?? flagged.lookAt[0] ?? null,
  };
}

/** A page for each of some jobs, by its file. */
function jobTasks({ policy }: ReportScope, evidence: EvidenceByJob): Map<string, PageTask> {
  return new Map(
    [...evidence].map(([jobId, job]): [string, PageTask] => {
      const judged: InUnits<JudgedJob> = (units) => ({
        ...job(units),
        policyId: policy.id,
        policyTitle: policy.title,
      });
      return [`${jobsFolder}/${pageFileName(jobId)}`, { kind: 'job', job: toldBoth(judged) }];
    }),
  );
}
