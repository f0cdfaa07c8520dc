import type { UnitSystem } from '../units/display.ts';
import type { DateStyle } from './date-style.ts';
import type { Html } from './html.ts';
import type { PageCharts } from './page-charts.ts';

/** How a reader wants figures written. */
export interface Reader {
  /** Which units a page shows first; it can be switched to the others. */
  readonly units: UnitSystem;
  readonly dates: DateStyle;
}

/** All that a page says, whatever becomes of it: a file for a browser, paper, or pictures of its charts. */
export interface PageContent {
  readonly title: string;
  readonly description: string;
  readonly reader: Reader;
  /** Links to the other pages of a report, above everything; absent for a page that stands alone. */
  readonly places?: Html | undefined;
  /** The page in one system of units, with its charts; called with either. */
  readonly body: (units: UnitSystem, charts: PageCharts) => Html | Promise<Html>;
}
