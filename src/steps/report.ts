import { join } from 'node:path';
import type { JudgedJob } from '../pages/job-page.ts';
import type { OwnerData } from '../pages/owner-data.ts';
import { ownerPage } from '../pages/owner-page.ts';
import type { PageContent } from '../pages/page-content.ts';
import { pageFileName } from '../pages/page-file-name.ts';
import {
  chartsFolder,
  jobsFolder,
  type ReportPlace,
  reportPlaces,
  sheetsFolder,
  specsFolder,
} from '../pages/report-places.ts';
import { serviceManagerPage } from '../pages/service-manager-page.ts';
import { startPage } from '../pages/start-page.ts';
import { mostTrainings, trainerPage } from '../pages/trainer-page.ts';
import type { Store } from '../store/store.ts';
import type { InUnits } from '../units/in-units.ts';
import { callbackReportOf } from './callback-report.ts';
import type { ChangesThread } from './changes-thread.ts';
import { coachReportsOf } from './coach-report.ts';
import { askedChanges } from './fleet-report.ts';
import { LookBackThread } from './look-back-thread.ts';
import { OwnerThread, ownerPlace } from './owner-thread.ts';
import { mostApart } from './report/most-apart.ts';
import { PagePrinter } from './paper/page-printer.ts';
import { pageFiles, type ReportFile } from './report/page-files.ts';
import type { ReportForm } from './report/report-form.ts';
import { type PageTask, toldBoth } from './report/page-task.ts';
import { PageThread } from './report/page-thread.ts';
import { reportCells } from './report/report-cells.ts';
import { calledBackJobs, type EvidenceByJob, evidenceByJob, flaggedJobs, mostWatched } from './report/report-jobs.ts';
import { openReport, type ReportOptions, type ReportScope } from './report/report-scope.ts';
import { ReportWriter } from './report/report-writer.ts';
import { serviceManagerData } from './report/service-manager-data.ts';
import { sheetFile, trainerData } from './report/trainer-data.ts';
import { riskReportOf } from './risk-report.ts';
import { trainerFleet } from './trainer-fleet.ts';
import { whoNeedsSheets } from './who-needs-sheets.ts';

/** What a report wrote, and what its first lines say. */
export interface ReportResult {
  /** The path of the start page; where only pictures were asked for, of their folder. */
  readonly page: string;
  /** The paths of the readers' pages; null where only pictures were asked for. */
  readonly pages: { readonly serviceManager: string; readonly trainer: string; readonly owner: string } | null;
  /** How many pictures of charts, and specifications of charts, were written. */
  readonly pictures: number;
  readonly specs: number;
  /** How many files of earlier reports in other formats stay in the folder. */
  readonly others: number;
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
 * job worth opening; as pages for a browser, on paper, or as pictures of all charts in them.
 *
 * @throws DryholdError `not-judged`, `output-unwritable`, `browser-missing`, `printing-failed`
 */
export async function report(store: Store, outDir: string, options: ReportOptions): Promise<ReportResult> {
  const form = options.form ?? { format: 'html', specs: false };
  const thread = new PageThread({ reader: options.reader, form });
  let beside: Beside | undefined;
  let printer: PagePrinter | undefined;
  try {
    options.onProgress?.(0, steps, 'jobs and callbacks');
    // Sooner than all else: without a browser there is nothing to work for.
    printer = form.format === 'pdf' ? await PagePrinter.open(options.paper ?? 'letter') : undefined;
    const scope = await openReport(store, options.codes);
    // Only now: until here all cores read.
    beside = {
      owner: new OwnerThread(store, options, await ownerPlace(store)),
      past: new LookBackThread(scope.open),
      changes: askedChanges(scope.open.fleet),
      thread,
      printer,
    };
    return await reportOf(scope, outDir, { ...options, form }, beside);
  } finally {
    await Promise.allSettled([beside?.changes.close(), beside?.past.close(), thread.close(), printer?.close()]);
    await beside?.owner.close();
  }
}

/** What works beside the main thread. */
interface Beside {
  readonly owner: OwnerThread;
  readonly thread: PageThread;
  readonly changes: ChangesThread;
  readonly past: LookBackThread;
  readonly printer: PagePrinter | undefined;
}

async function reportOf(
  scope: ReportScope,
  outDir: string,
  { reader, form, onProgress = () => undefined }: ReportOptions & { readonly form: ReportForm },
  { owner, thread, changes, past, printer }: Beside,
): Promise<ReportResult> {
  const { store, open, counts } = scope;
  onProgress(1, steps, 'recordings');
  const flagged = await flaggedJobs(scope);
  const firstJobs = await evidenceByJob(scope, [...flagged.visits, ...flagged.lookAt, ...calledBackJobs(scope)]);
  const pages: (() => Promise<ReportFile[]>)[] = [];
  const begin = (tasks: readonly PageTask[]): void => {
    pages.push(...thread.render(tasks));
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
    sheets.map(({ file, report: told }) => ({
      file: `${sheetsFolder}/${file}`,
      kind: 'sheet',
      report: toldBoth(told),
      pages: jobPages,
    })),
  );
  const manager = await serviceManagerData(scope, { callbacks, risk }, { evidence, flagged }, cells);
  const trainer = await trainerData(scope, { fleet, sheets }, cells, jobPages);
  onProgress(6, steps, 'refrigerant');
  const figures = await owner.data();
  const ownerData: InUnits<OwnerData> = (units) => ({ ...figures, units });
  onProgress(7, steps, 'pages');
  const readers: Readonly<Record<ReportPlace, PageContent>> = {
    owner: ownerPage(ownerData, reader),
    trainer: trainerPage(trainer, reader),
    'service-manager': serviceManagerPage(manager, reader),
    // The last, so that it leads nowhere that is not there yet.
    start: startPage(
      (units) => ({ manager: manager(units), trainer: trainer(units), owner: ownerData(units) }),
      reader,
    ),
  };
  for (const [place, page] of Object.entries(readers))
    pages.push(() => pageFiles(reportPlaces[place as ReportPlace].file, page, form));
  const written = { pictures: 0, specs: 0 };
  const writer = ReportWriter.open(outDir, form, printer);
  for (const [at, files] of pages.entries()) {
    const made = await files();
    written.pictures += made.filter(({ file }) => file.startsWith(`${chartsFolder}/`)).length;
    written.specs += made.filter(({ file }) => file.startsWith(`${specsFolder}/`)).length;
    await writer.write(made);
    if (form.format !== 'html') onProgress(7, steps, `page ${at + 1} of ${pages.length}`);
  }
  const others = await writer.close();
  onProgress(steps, steps, 'done');
  const { sendBack } = manager(reader.units);
  return {
    ...pathsOf(outDir, form),
    ...written,
    others,
    sheets: sheets.length,
    jobPages: evidence.size,
    jobs: counts.jobs,
    jobsJudged: counts.judged,
    jobsFlagged: counts.flagged,
    lookFirst: sendBack[0]?.job.jobId ?? flagged.lookAt[0] ?? null,
  };
}

/** Where the pages are, or the pictures. */
function pathsOf(outDir: string, { format }: ReportForm): Pick<ReportResult, 'page' | 'pages'> {
  if (format === 'png' || format === 'svg') return { page: join(outDir, chartsFolder), pages: null };
  const path = (place: ReportPlace): string => join(outDir, reportPlaces[place].file.replace(/html$/, format));
  return {
    page: path('start'),
    pages: { serviceManager: path('service-manager'), trainer: path('trainer'), owner: path('owner') },
  };
}

/** A page for each of some jobs. */
function jobTasks({ policy }: ReportScope, evidence: EvidenceByJob): PageTask[] {
  return [...evidence].map(([jobId, job]) => {
    const judged: InUnits<JudgedJob> = (units) => ({
      ...job(units),
      policyId: policy.id,
      policyTitle: policy.title,
    });
    return { file: `${jobsFolder}/${pageFileName(jobId)}`, kind: 'job', job: toldBoth(judged) };
  });
}
