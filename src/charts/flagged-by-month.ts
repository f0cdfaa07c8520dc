import type { TopLevelSpec } from 'vega-lite';
import { wilsonInterval } from '../numerics/wilson-interval.ts';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { monthAxis } from './month-axis.ts';
import { shareAxis } from './share-axis.ts';

/** Jobs of one month: those that could be judged, and those of them with a suspect or fail finding. */
export interface MonthCount {
  /** YYYY-MM */
  readonly month: string;
  readonly judged: number;
  readonly flagged: number;
}

export interface FlaggedByMonthOptions {
  /** All months to show, in order; a month without rows stays empty. */
  readonly months: readonly string[];
  /** Shares of all crews together, drawn as the grey line behind. */
  readonly everyone?: readonly MonthCount[];
  /** Largest share or upper bound on any of the charts side by side [ratio]. Default: 1 */
  readonly largestShare?: number;
  readonly colours?: ChartColours;
}

/**
 * Which share of the judged jobs was flagged, month by month?
 *
 * One crew a chart (small multiples): the share as a dot with its 95 % Wilson interval, the number of judged jobs under
 * each month where there is room, and the share of all crews as a grey line. Charts side by side
 * compare when given the same largest share.
 *
 * @param counts one crew's months, each at most once
 * @returns Vega-Lite specification
 *
 * Source: newcombe-1998 (interval)
 */
export function flaggedByMonth(counts: readonly MonthCount[], options: FlaggedByMonthOptions): TopLevelSpec {
  const { months, everyone = [], largestShare = 1, colours = lightColours } = options;
  const byMonth = new Map(counts.map((count) => [count.month, count]));
  const all = new Map(everyone.map((count) => [count.month, count]));
  const values = months.map((month) => {
    const { judged, flagged } = byMonth.get(month) ?? { judged: 0, flagged: 0 };
    const total = all.get(month);
    const everyoneShare = total === undefined || total.judged === 0 ? null : total.flagged / total.judged;
    if (judged === 0) return { month, judged, share: null, low: null, high: null, everyoneShare };
    return { month, judged, share: flagged / judged, ...wilsonInterval(flagged, judged), everyoneShare };
  });
  const axis = shareAxis(largestShare);
  const roomForNumbers = "bandwidth('x') >= 19 ? 1 : 0";
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    data: { name: 'months', values },
    width: 'container',
    height: 150,
    encoding: {
      x: monthAxis(months, 20),
    },
    layer: [
      {
        mark: { type: 'line', color: colours.muted, strokeWidth: 1.5, strokeDash: [4, 3] },
        encoding: {
          y: {
            field: 'everyoneShare',
            type: 'quantitative',
            title: null,
            scale: { domain: axis.domain, nice: false },
            axis: { format: '.0%', values: axis.values, tickCount: axis.values.length },
          },
        },
      },
      {
        transform: [{ filter: 'isValid(datum.share)' }],
        mark: { type: 'rule', color: colours.accent, strokeWidth: 2.5, strokeCap: 'round', opacity: 0.55 },
        encoding: { y: { field: 'low', type: 'quantitative' }, y2: { field: 'high' } },
      },
      {
        transform: [{ filter: 'isValid(datum.share)' }],
        mark: { type: 'point', filled: true, color: colours.accent, size: 46, opacity: 1 },
        encoding: {
          y: { field: 'share', type: 'quantitative' },
        },
      },
      {
        mark: {
          type: 'text',
          color: colours.muted,
          fontSize: 10.5,
          baseline: 'top',
          opacity: { expr: roomForNumbers },
        },
        encoding: { y: { value: 156 }, text: { field: 'judged' } },
      },
    ],
    config: chartConfig(colours),
  };
}
