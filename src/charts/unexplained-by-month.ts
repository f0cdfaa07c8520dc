import type { TopLevelSpec } from 'vega-lite';
import { commonFillRatio, commonScaleRatio } from '../accounts/balance.ts';
import type { ShownMass } from './balance-cell-row.ts';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { filterParams, passesFilter } from './chart-filter.ts';
import { monthAxis } from './month-axis.ts';

export interface UnexplainedByMonthOptions extends ShownMass {
  /** All months to show, in order; one in which nothing moved stays empty. */
  readonly months: readonly string[];
  readonly colours?: ChartColours;
}

const summed = ['boughtKg', 'chargedKg', 'recoveredKg', 'unexplainedKg', 'unexplainedVarianceKg2'];
/** As `unexplainedHalfWidthKg` has it. */
const halfWidthKg = `1.96 * sqrt(datum.unexplainedVarianceKg2 + pow(${commonScaleRatio} * (datum.chargedKg + datum.recoveredKg), 2) + pow(${commonFillRatio} * datum.boughtKg, 2))`;

/**
 * How much refrigerant is missing each month, beyond what scales explain?
 *
 * A dot a month with its 95 % interval; where the interval crosses the line at 0, the scales explain it. A month whose interval does
 * not has a diamond.
 *
 * @returns Vega-Lite specification, to be filtered in the page; its rows are `balance-cells`, each a `BalanceCellRow`
 */
export function unexplainedByMonth(options: UnexplainedByMonthOptions): TopLevelSpec {
  const { months, unit, kgPerShown, colours = lightColours } = options;
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    params: filterParams,
    data: { name: 'balance-cells' },
    transform: [
      passesFilter,
      { filter: { field: 'month', oneOf: [...months] } },
      { aggregate: summed.map((field) => ({ op: 'sum', field, as: field })), groupby: ['month'] },
      { calculate: `datum.unexplainedKg / ${kgPerShown}`, as: 'value' },
      { calculate: `${halfWidthKg} / ${kgPerShown}`, as: 'halfWidth' },
      { calculate: 'datum.value - datum.halfWidth', as: 'low' },
      { calculate: 'datum.value + datum.halfWidth', as: 'high' },
    ],
    width: 'container',
    height: 190,
    encoding: { x: { ...monthAxis(months), scale: { domain: [...months] } } },
    layer: [
      {
        mark: { type: 'rule', color: colours.accent, strokeWidth: 2.5, strokeCap: 'round', opacity: 0.55 },
        encoding: {
          y: {
            field: 'low',
            type: 'quantitative',
            title: `missing, ${unit}`,
            scale: { zero: true },
            axis: { tickCount: 5 },
          },
          y2: { field: 'high' },
        },
      },
      {
        mark: {
          type: 'point',
          filled: true,
          color: colours.accent,
          size: 60,
          opacity: 1,
          shape: { expr: "abs(datum.value) > datum.halfWidth ? 'diamond' : 'circle'" },
        },
        encoding: { y: { field: 'value', type: 'quantitative' } },
      },
      {
        data: { name: 'nothing', values: [{ nothing: 0 }] },
        mark: { type: 'rule', color: colours.ink, strokeWidth: 1.25, strokeDash: [5, 3] },
        encoding: { x: { value: 0 }, x2: { value: 'width' }, y: { field: 'nothing', type: 'quantitative' } },
      },
    ],
    config: chartConfig(colours),
  };
}
