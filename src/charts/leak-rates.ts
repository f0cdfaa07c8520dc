import type { TopLevelSpec } from 'vega-lite';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { type FilterableRow, filterParams, passesFilterBut } from './chart-filter.ts';
import { labelAxis } from './label-axis.ts';

/** The latest leak rate of an appliance, and the month of the addition that tells it. */
export interface LeakRateRow extends Pick<FilterableRow, 'month' | 'refrigerant'> {
  readonly systemId: string;
  /** Share of the full charge a year [ratio], above 0. */
  readonly rate: number;
  /** Above which repair is due [ratio]. */
  readonly trigger: number;
  readonly isOver: boolean;
}

export interface LeakRatesOptions {
  readonly colours?: ChartColours;
}

/** Height of one appliance's row [px]. */
export const leakRateRowPx = 26;
/** The axis begins here, however small the rates are [ratio]. */
const leastRate = 0.001;

/**
 * Which leak rates are over their trigger?
 *
 * A row an appliance, on a logarithmic axis: the rate as a dot, or as a diamond where it is over the trigger; the trigger as a bar.
 *
 * @param rows in the order in which they are to stand
 * @returns Vega-Lite specification, to be filtered in the page by refrigerant and period: a leak is nobody's
 */
export function leakRates(
  rows: readonly LeakRateRow[],
  { colours = lightColours }: LeakRatesOptions = {},
): TopLevelSpec {
  const values = rows.map(({ systemId, month, refrigerant, rate, trigger, isOver }) => ({
    systemId,
    month,
    refrigerant,
    rate: Math.max(leastRate, rate),
    trigger,
    isOver,
    text: rate < 0.9995 ? `${(100 * rate).toFixed(1)}%` : `${Math.round(100 * rate)}%`,
  }));
  const most = Math.max(0.5, ...values.map(({ rate }) => rate));
  const decades = [0.001, 0.01, 0.1, 1, 10, 100].filter((at) => at <= most * 1.001);
  const y = labelAxis(
    values.map(({ systemId }) => systemId),
    { field: 'systemId', colours },
  );
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    params: filterParams,
    data: { name: 'appliances', values },
    transform: [passesFilterBut('crew', 'technician')],
    width: 'container',
    height: Math.max(1, values.length) * leakRateRowPx,
    layer: [
      {
        mark: { type: 'tick', color: colours.fail, thickness: 3, size: 18, opacity: 1 },
        encoding: {
          x: {
            field: 'trigger',
            type: 'quantitative',
            title: 'leak rate, share of the full charge a year',
            scale: { type: 'log', domain: [leastRate, most * 1.2], nice: false },
            axis: {
              values: decades,
              labelExpr: "datum.value < 0.01 ? '0.1%' : format(datum.value, '.0%')",
              labelFlush: false,
            },
          },
          y,
        },
      },
      {
        mark: { type: 'point', filled: true, color: colours.accent, size: 80, opacity: 1 },
        encoding: {
          x: { field: 'rate', type: 'quantitative' },
          y,
          shape: {
            field: 'isOver',
            type: 'nominal',
            legend: null,
            scale: { domain: [false, true], range: ['circle', 'diamond'] },
          },
        },
      },
      {
        mark: { type: 'text', align: 'left', dx: 8, color: colours.muted, fontSize: 11 },
        encoding: { x: { value: 'width' }, y, text: { field: 'text', type: 'nominal' } },
      },
    ],
    config: chartConfig(colours),
  };
}
