import type { TopLevelSpec } from 'vega-lite';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { type FilterableRow, filterParams, passesFilter } from './chart-filter.ts';
import { monthAxis } from './month-axis.ts';
import { shareAxis, shareReach } from './share-axis.ts';
import { wilsonTransforms } from './wilson-transforms.ts';

/** A row of `job-cells`: jobs that are alike in all that can be filtered by. */
export interface JobCell extends FilterableRow {
  /** Jobs that could be judged, and those of them with a suspect or fail finding. */
  readonly judged: number;
  readonly flagged: number;
}

export interface FlaggedByMonthOptions {
  /** All months to show, in order; a month without judged jobs stays empty. */
  readonly months: readonly string[];
  /** The crew whose jobs are shown, with the share of all that pass the filter as the grey line behind; absent: all jobs. */
  readonly crew?: string;
  readonly colours?: ChartColours;
}

/**
 * Which share of the judged jobs was flagged, month by month?
 *
 * One crew a chart (small multiples): the share as a dot with its 95 % Wilson interval, the number of judged jobs under
 * each month where there is room, and the share of all crews as a grey line. Charts side by side compare: the axis of each
 * reaches as far as the interval of any crew's month does.
 *
 * @returns Vega-Lite specification, to be filtered in the page; its rows are `job-cells`, each a `JobCell`
 *
 * Source: newcombe-1998 (interval)
 */
export function flaggedByMonth({ months, crew, colours = lightColours }: FlaggedByMonthOptions): TopLevelSpec {
  const isOwn = '(ownCrew === null || datum.crew === ownCrew)';
  const roomForNumbers = "bandwidth('x') >= 19 ? 1 : 0";
  const judgedOnly = { filter: 'datum.judged > 0' };
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    // A label is no text of an expression: it may hold anything.
    params: [...filterParams, { name: 'ownCrew', value: crew ?? null }],
    data: { name: 'job-cells' },
    transform: [
      passesFilter,
      { filter: { field: 'month', oneOf: [...months] } },
      {
        aggregate: [
          { op: 'sum', field: 'judged', as: 'allJudged' },
          { op: 'sum', field: 'flagged', as: 'allFlagged' },
        ],
        groupby: ['crew', 'month'],
      },
      ...wilsonTransforms('allFlagged', 'allJudged'),
      { calculate: `${isOwn} ? datum.allJudged : 0`, as: 'ownJudged' },
      { calculate: `${isOwn} ? datum.allFlagged : 0`, as: 'ownFlagged' },
      {
        aggregate: [
          { op: 'sum', field: 'ownJudged', as: 'judged' },
          { op: 'sum', field: 'ownFlagged', as: 'flagged' },
          { op: 'sum', field: 'allJudged', as: 'allJudged' },
          { op: 'sum', field: 'allFlagged', as: 'allFlagged' },
          { op: 'max', field: 'high', as: 'crewsHigh' },
        ],
        groupby: ['month'],
      },
      { joinaggregate: [{ op: 'max', field: 'crewsHigh', as: 'largestShare' }] },
      { calculate: shareReach('datum.largestShare'), as: 'reach' },
      // A month without jobs is a row too, so that the line breaks there.
      { impute: 'judged', key: 'month', keyvals: [...months], value: 0 },
      ...wilsonTransforms('flagged', 'judged'),
      { calculate: 'datum.allJudged > 0 ? datum.allFlagged / datum.allJudged : null', as: 'everyoneShare' },
    ],
    width: 'container',
    height: 150,
    encoding: {
      x: { ...monthAxis(months, 20), scale: { domain: [...months] } },
    },
    layer: [
      {
        // Not seen: the axis reaches so far.
        transform: [{ filter: 'isValid(datum.reach)' }],
        mark: { type: 'rule', opacity: 0 },
        encoding: {
          y: {
            field: 'reach',
            type: 'quantitative',
            title: null,
            scale: { domain: { unionWith: [0, 0.25] }, nice: false },
            axis: shareAxis('y'),
          },
        },
      },
      {
        mark: {
          type: 'line',
          color: colours.muted,
          strokeWidth: 1.5,
          strokeDash: [4, 3],
          opacity: crew === undefined ? 0 : 1,
        },
        encoding: { y: { field: 'everyoneShare', type: 'quantitative' } },
      },
      {
        transform: [judgedOnly],
        mark: { type: 'rule', color: colours.accent, strokeWidth: 2.5, strokeCap: 'round', opacity: 0.55 },
        encoding: { y: { field: 'low', type: 'quantitative' }, y2: { field: 'high' } },
      },
      {
        transform: [judgedOnly],
        mark: { type: 'point', filled: true, color: colours.accent, size: 46, opacity: 1 },
        encoding: {
          y: { field: 'share', type: 'quantitative' },
        },
      },
      {
        transform: [judgedOnly],
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
