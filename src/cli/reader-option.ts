import { Option } from 'commander';
import { type DateStyle, dateStyles } from '../pages/date-style.ts';
import type { Reader } from '../pages/page-content.ts';
import type { CommonOptions } from './context.ts';

/** What commands that write pages take beside the units. */
export interface ReaderOptions extends CommonOptions {
  readonly dates: DateStyle;
}

/** How days are written in pages. */
export function datesOption(): Option {
  return new Option('--dates <style>', 'how pages write days: 2 Mar 2026, Mar 2, 2026, or 2026-03-02')
    .choices(dateStyles)
    .default('day-first');
}

/** How the reader of a page wants figures written. */
export function readerOf({ units, dates }: ReaderOptions): Reader {
  return { units, dates };
}
