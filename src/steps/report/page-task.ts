import type { CoachReport } from '../../pages/coach-data.ts';
import { renderCoachPage } from '../../pages/coach-page.ts';
import { type JudgedJob, renderJobPage } from '../../pages/job-page.ts';
import type { Reader } from '../../pages/page-shell.ts';
import type { UnitSystem } from '../../units/display.ts';
import type { InUnits } from '../../units/in-units.ts';

/** Something as it is told in either system of units: what can be sent to another thread. */
export type ToldBoth<Value> = Readonly<Record<UnitSystem, Value>>;

/** A page that is one of many, and all that it says. */
export type PageTask =
  | { readonly kind: 'job'; readonly job: ToldBoth<JudgedJob> }
  | { readonly kind: 'sheet'; readonly report: ToldBoth<CoachReport>; readonly pages: ReadonlySet<string> };

/** Tells something in both. */
export function toldBoth<Value>(told: InUnits<Value>): ToldBoth<Value> {
  return { ip: told('ip'), si: told('si') };
}

/** Renders the page. */
export function renderTask(task: PageTask, reader: Reader): Promise<string> {
  return task.kind === 'job'
    ? renderJobPage((units) => task.job[units], reader, 'in-report')
    : renderCoachPage((units) => task.report[units], reader, task.pages);
}
