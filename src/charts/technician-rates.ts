import type { TopLevelSpec } from 'vega-lite';
import type { Transform } from 'vega-lite/types_unstable/transform.js';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { filterParams, passesFilterBut } from './chart-filter.ts';
import { labelAxis } from './label-axis.ts';
import { shareAxis, shareReach } from './share-axis.ts';
import { wilsonTransforms } from './wilson-transforms.ts';

export interface TechnicianRatesOptions {
  /** Labels of the technicians to show, in order. */
  readonly technicians: readonly string[];
  readonly colours?: ChartColours;
}

/** Height of one technician's row [px]. */
export const technicianRowPx = 27;

const sums = ['judged', 'flagged'].map((field) => ({ op: 'sum' as const, field, as: field }));

/**
 * Whose jobs were flagged more often than the fleet's, beyond what chance explains?
 *
 * Dot, 95 % interval and number of judged jobs per technician, by name: not a league table. The share of all jobs that pass
 * the filter, whoever's they are, is the dashed line; an interval across it shows no difference.
 *
 * @returns Vega-Lite specification, one row per technician, to be filtered in the page; its rows are `job-cells`, each a
 *   `JobCell`
 *
 * Source: newcombe-1998 (interval)
 */
export function technicianRates({ technicians, colours = lightColours }: TechnicianRatesOptions): TopLevelSpec {
  const isListed = 'indexof(listed, datum.technician) >= 0';
  const all: Transform[] = [
    passesFilterBut('technician'),
    { aggregate: sums, groupby: ['technician'] },
    { impute: 'judged', key: 'technician', keyvals: [...technicians], value: 0 },
    ...wilsonTransforms('flagged', 'judged'),
    { calculate: `${isListed} ? datum.high : null`, as: 'listedHigh' },
    {
      joinaggregate: [
        { op: 'sum', field: 'judged', as: 'allJudged' },
        { op: 'sum', field: 'flagged', as: 'allFlagged' },
        { op: 'max', field: 'listedHigh', as: 'largestHigh' },
      ],
    },
  ];
  const everyone: Transform[] = [
    ...all,
    {
      aggregate: ['allJudged', 'allFlagged', 'largestHigh'].map((field) => ({ op: 'max', field, as: field })),
      groupby: [],
    },
    { filter: 'datum.allJudged > 0' },
    { calculate: 'datum.allFlagged / datum.allJudged', as: 'everyoneShare' },
    { calculate: shareReach('max(datum.largestHigh, datum.everyoneShare)'), as: 'reach' },
  ];
  const own: Transform[] = [
    ...all,
    { filter: isListed },
    { filter: 'technician === null || datum.technician === technician' },
    { calculate: "datum.judged > 0 ? datum.flagged + ' of ' + datum.judged : 'none judged'", as: 'count' },
  ];
  const judged: Transform[] = [...own, { filter: 'datum.judged > 0' }];
  const y = labelAxis(technicians, { field: 'technician', colours });
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    params: [...filterParams, { name: 'listed', value: [...technicians] }],
    data: { name: 'job-cells' },
    width: 'container',
    height: Math.max(1, technicians.length) * technicianRowPx,
    layer: [
      {
        // Not seen: the axis reaches so far.
        transform: everyone,
        mark: { type: 'rule', opacity: 0 },
        encoding: {
          x: {
            field: 'reach',
            type: 'quantitative',
            title: 'share of judged jobs flagged',
            scale: { domain: { unionWith: [0, 0.25] }, nice: false },
            axis: { ...shareAxis('x'), labelFlush: false },
          },
        },
      },
      {
        transform: everyone,
        mark: { type: 'rule', color: colours.ink, strokeWidth: 1.25, strokeDash: [5, 3] },
        encoding: { x: { field: 'everyoneShare', type: 'quantitative' } },
      },
      {
        transform: everyone,
        mark: { type: 'text', align: 'center', baseline: 'bottom', dy: -4, fontSize: 11 },
        encoding: {
          x: { field: 'everyoneShare', type: 'quantitative' },
          y: { value: 0 },
          text: { value: { expr: "'all ' + format(datum.everyoneShare, '.0%')" } },
        },
      },
      {
        transform: judged,
        mark: { type: 'rule', color: colours.accent, strokeWidth: 3, strokeCap: 'round', opacity: 0.55 },
        encoding: { x: { field: 'low', type: 'quantitative' }, x2: { field: 'high' }, y },
      },
      {
        transform: judged,
        mark: { type: 'point', filled: true, color: colours.accent, size: 70, opacity: 1 },
        encoding: { x: { field: 'share', type: 'quantitative' }, y },
      },
      {
        transform: own,
        mark: { type: 'text', align: 'left', dx: 8, color: colours.muted, fontSize: 11 },
        encoding: { x: { value: 'width' }, y, text: { field: 'count', type: 'nominal' } },
      },
    ],
    config: chartConfig(colours),
  };
}
