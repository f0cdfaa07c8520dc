import type { TopLevelSpec } from 'vega-lite';
import type { ShownMass } from './balance-cell-row.ts';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { worthByMonth } from './worth-by-month.ts';

export interface Co2eByMonthOptions extends ShownMass {
  /** All months to show, in order. */
  readonly months: readonly string[];
  /** Whose global warming potentials, as it stands beside a figure. */
  readonly vintageText: string;
  readonly colours?: ChartColours;
}

/**
 * What would the refrigerant weigh as carbon dioxide that was charged, month by month?
 *
 * A bar a month, in tonnes. That is what was put into systems, not what got into the air. What has no value of the vintage is in no
 * bar; how much that is stands below.
 *
 * @returns Vega-Lite specification, to be filtered in the page; its rows are `balance-cells`, each a `BalanceCellRow`
 */
export function co2eByMonth(options: Co2eByMonthOptions): TopLevelSpec {
  const { vintageText, colours = lightColours } = options;
  const title = `charged, t CO₂e (${vintageText})`;
  return worthByMonth('co2eT', { ...options, colours, title, without: 'a value' });
}
