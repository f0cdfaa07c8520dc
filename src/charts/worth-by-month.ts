import type { TopLevelSpec } from 'vega-lite';
import type { Transform } from 'vega-lite/types_unstable/transform.js';
import type { BalanceCellRow, ShownMass } from './balance-cell-row.ts';
import type { ChartColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { filterParams, passesFilter } from './chart-filter.ts';
import { monthAxis } from './month-axis.ts';

export interface WorthByMonthOptions extends ShownMass {
  /** All months to show, in order; one in which nothing was charged stays empty. */
  readonly months: readonly string[];
  /** Title of the axis. */
  readonly title: string;
  /** What the mass that is left out is without, as in "3 lb without …". */
  readonly without: string;
  readonly colours: ChartColours;
}

const HEIGHT_PX = 170;
/** Below the axis with its months and years [px]. */
const NOTE_PX = HEIGHT_PX + 44;

/**
 * A bar a month of what the refrigerant that was charged is worth; below, how much of it is left out because its worth is not known.
 *
 * @param field by which it is worth so much; null in a row is not known
 * @returns Vega-Lite specification, to be filtered in the page; its rows are `balance-cells`, each a `BalanceCellRow`
 */
export function worthByMonth(
  field: keyof Pick<BalanceCellRow, 'cost' | 'co2eT'>,
  { months, title, without, unit, kgPerShown, colours }: WorthByMonthOptions,
): TopLevelSpec {
  const shown: Transform[] = [passesFilter, { filter: { field: 'month', oneOf: [...months] } }];
  const worth: Transform[] = [
    ...shown,
    { filter: `isValid(datum.${field})` },
    { aggregate: [{ op: 'sum', field, as: 'worth' }], groupby: ['month'] },
  ];
  const leftOut: Transform[] = [
    ...shown,
    { filter: `!isValid(datum.${field})` },
    { aggregate: [{ op: 'sum', field: 'chargedKg', as: 'leftOutKg' }], groupby: [] },
    { filter: 'datum.leftOutKg > 0' },
    { calculate: `format(datum.leftOutKg / ${kgPerShown}, '.1f') + ' ${unit} without ${without}'`, as: 'note' },
  ];
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    params: filterParams,
    data: { name: 'balance-cells' },
    width: 'container',
    height: HEIGHT_PX,
    layer: [
      {
        transform: worth,
        mark: { type: 'bar', color: colours.accent, width: { band: 0.62 } },
        encoding: {
          x: { ...monthAxis(months), scale: { domain: [...months] } },
          y: {
            field: 'worth',
            type: 'quantitative',
            title,
            // So far even where nothing is known: an axis of nothing has no numbers.
            scale: { domain: { unionWith: [0, 1] } },
            axis: { tickCount: 5, labelExpr: "join(split(format(datum.value, ',~f'), ','), ' ')" },
          },
        },
      },
      {
        transform: leftOut,
        mark: { type: 'text', align: 'left', baseline: 'top', color: colours.muted, fontSize: 11 },
        encoding: { x: { value: 0 }, y: { value: NOTE_PX }, text: { field: 'note', type: 'nominal' } },
      },
    ],
    config: chartConfig(colours),
  };
}
