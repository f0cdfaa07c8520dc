import type { TopLevelSpec } from 'vega-lite';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { monthAxis } from './month-axis.ts';

/** What is unexplained of a month, in the reader's unit. */
export interface UnexplainedMonth {
  /** YYYY-MM. */
  readonly month: string;
  /** Missing; below 0 what is too much. */
  readonly value: number;
  /** Half the width of the 95 % interval. */
  readonly halfWidth: number;
}

export interface UnexplainedByMonthOptions {
  /** `lb` or `kg`. */
  readonly unit: string;
  readonly colours?: ChartColours;
}

/**
 * How much refrigerant is missing each month, beyond what scales explain?
 *
 * A dot a month with its 95 % interval; where the interval crosses the line at 0, the scales explain it. A month whose interval does
 * not has a diamond.
 *
 * @returns Vega-Lite specification
 */
export function unexplainedByMonth(
  months: readonly UnexplainedMonth[],
  { unit, colours = lightColours }: UnexplainedByMonthOptions,
): TopLevelSpec {
  const values = months.map(({ month, value, halfWidth }) => ({
    month,
    value,
    low: value - halfWidth,
    high: value + halfWidth,
    isClear: Math.abs(value) > halfWidth,
  }));
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    data: { name: 'months', values },
    width: 'container',
    height: 190,
    encoding: { x: monthAxis(months.map(({ month }) => month)) },
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
        mark: { type: 'point', filled: true, color: colours.accent, size: 60, opacity: 1 },
        encoding: {
          y: { field: 'value', type: 'quantitative' },
          shape: {
            field: 'isClear',
            type: 'nominal',
            legend: null,
            scale: { domain: [false, true], range: ['circle', 'diamond'] },
          },
        },
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
