import type { TopLevelSpec } from 'vega-lite';
import type { ShownMass } from './balance-cell-row.ts';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { worthByMonth } from './worth-by-month.ts';

export interface RefrigerantCostByMonthOptions extends ShownMass {
  /** All months to show, in order. */
  readonly months: readonly string[];
  readonly colours?: ChartColours;
}

/**
 * What did the refrigerant cost that was charged, month by month?
 *
 * A bar a month, in the currency of the shop. What has no price on record is in no bar; how much that is stands below.
 *
 * @returns Vega-Lite specification, to be filtered in the page; its rows are `balance-cells`, each a `BalanceCellRow`
 */
export function refrigerantCostByMonth(options: RefrigerantCostByMonthOptions): TopLevelSpec {
  const { colours = lightColours } = options;
  return worthByMonth('cost', { ...options, colours, title: 'cost of what was charged', without: 'a price' });
}
