import { dateOf, dayOf } from '../../numerics/calendar-day.ts';
import type { Reader } from '../../pages/page-content.ts';
import { query } from '../../store/sql.ts';
import type { Store } from '../../store/store.ts';
import type { Paper } from '../paper/page-printer.ts';
import { type OpenCallbacks, openCallbacks } from '../open-callbacks.ts';
import { type PolicyJudged, policyJudged } from '../policy-judged.ts';
import type { ReportForm } from './report-form.ts';

export interface ReportOptions {
  readonly reader: Reader;
  /** Whether people and crews are named by code. */
  readonly codes: boolean;
  /** What it is written as; pages for a browser where it is not said. */
  readonly form?: ReportForm;
  /** Sheets of a report on paper; letter where it is not said. */
  readonly paper?: Paper;
  readonly onProgress?: ((done: number, of: number, note: string) => void) | undefined;
}

/** What all pages of a report rest on, read once. */
export interface ReportScope {
  readonly store: Store;
  readonly codes: boolean;
  readonly policy: PolicyJudged;
  readonly open: OpenCallbacks;
  /** First and last day of the judged jobs, and the last seven days of them, ISO dates; empty where there is none. */
  readonly period: { readonly from: string; readonly to: string };
  readonly week: { readonly from: string; readonly to: string };
  readonly counts: { readonly jobs: number; readonly judged: number; readonly flagged: number };
}

/**
 * Reads what all pages rest on, by the policy judged last. Leaves the temporary tables `job_crews` and `job_outcomes`, and those of the
 * fleet.
 *
 * @throws DryholdError `not-judged`
 */
export async function openReport(store: Store, codes: boolean): Promise<ReportScope> {
  const policy = await policyJudged(store);
  const open = await openCallbacks(store, { codes });
  await store.run(query('job-outcomes'));
  const [{ first, last, ...counts }] = await store.rows<{
    first: string | null;
    last: string | null;
    jobs: number;
    judged: number;
    flagged: number;
  }>(
    `SELECT min(day) AS first, max(day) AS last, count(*) AS jobs, count(*) FILTER (judged) AS judged,
       count(*) FILTER (flagged) AS flagged FROM temp.job_outcomes`,
  );
  const to = last ?? '';
  return {
    store,
    codes,
    policy,
    open,
    period: { from: first ?? '', to },
    week: { from: to === '' ? '' : dateOf(dayOf(to) - 6), to },
    counts,
  };
}
