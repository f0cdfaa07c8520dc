import type { CoachReport } from '../../pages/coach-data.ts';
import { coachPage } from '../../pages/coach-page.ts';
import { type JudgedJob, jobPage } from '../../pages/job-page.ts';
import type { PageContent, Reader } from '../../pages/page-content.ts';
import type { UnitSystem } from '../../units/display.ts';
import type { InUnits } from '../../units/in-units.ts';
import { pageFiles, type ReportFile } from './page-files.ts';
import type { ReportForm } from './report-form.ts';

/** Something as it is told in either system of units: what can be sent to another thread. */
export type ToldBoth<Value> = Readonly<Record<UnitSystem, Value>>;

/** A page that is one of many, and all that it says. */
export type PageTask = {
  /** Its place in the folder of the report. */
  readonly file: string;
} & (
  | { readonly kind: 'job'; readonly job: ToldBoth<JudgedJob> }
  | { readonly kind: 'sheet'; readonly report: ToldBoth<CoachReport>; readonly pages: ReadonlySet<string> }
);

/** How the pages of a report are made. */
export interface PageMaking {
  readonly reader: Reader;
  readonly form: ReportForm;
}

/** Tells something in both. */
export function toldBoth<Value>(told: InUnits<Value>): ToldBoth<Value> {
  return { ip: told('ip'), si: told('si') };
}

/** What the page becomes. */
export function taskFiles(task: PageTask, { reader, form }: PageMaking): Promise<ReportFile[]> {
  return pageFiles(task.file, taskPage(task, reader), form);
}

function taskPage(task: PageTask, reader: Reader): PageContent {
  return task.kind === 'job'
    ? jobPage((units) => task.job[units], reader, 'in-report')
    : coachPage((units) => task.report[units], reader, task.pages);
}
