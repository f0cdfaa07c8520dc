import type { TopLevelSpec } from 'vega-lite';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { filterParams, passesFilterOf } from './chart-filter.ts';

/** The table that the chart reads: rows of `LifeTableRow`. */
export const lifeTableName = 'life-table';

/** Jobs of one kind in one step of their age, as `lifeTableCounts` counts them. */
export interface LifeTableRow {
  readonly month: string;
  readonly crew: string;
  readonly technician: string;
  readonly refrigerant: string;
  readonly group: string;
  readonly step: number;
  readonly began: number;
  readonly late: number;
  readonly left: number;
  readonly called: number;
}

export interface CalledBackByAgeOptions {
  /** What the flagged, the clean and the jobs whose tests were not judged are called. */
  readonly groups: readonly [flagged: string, clean: string, notJudged: string];
  /** Length of a step [days]. */
  readonly stepDays: number;
  /** Age up to which jobs are watched [days]. */
  readonly horizonDays: number;
  /** How many months a row is of, with the first of them: 1, 3 or 12; absent: 1. */
  readonly monthsEach?: number;
  readonly colours?: ChartColours;
}

const HEIGHT_PX = 230;
const normal95 = 1.959964;
/** Where nothing happened to so many, the upper end of the interval is three of them, one-sided 95 %. */
const ruleOfThree = 3;
/** The line ends where fewer are watched. Common practice, no source. */
const fewestWatched = 20;

/**
 * Do flagged jobs call back sooner than clean ones?
 *
 * The share of jobs that called back by their age, flagged, clean and not judged ones apart by line style as well as colour, each with
 * its 95 % interval at its end, before the first step in which fewer than twenty were watched: a life table over the rows that pass the
 * page's filters, those who leave or come within a step counted for half of it.
 *
 * @returns Vega-Lite specification; its rows come by name
 *
 * Source: actuarial life table, with the interval of Kalbfleisch and Prentice on the log-log scale, and the rule of three where nobody
 * called; textbook.
 */
export function calledBackByAge({
  groups,
  stepDays,
  horizonDays,
  monthsEach = 1,
  colours = lightColours,
}: CalledBackByAgeOptions): TopLevelSpec {
  const domain = [...groups];
  const colour = {
    field: 'group',
    type: 'nominal',
    scale: { domain, range: [colours.fail, colours.accent, colours.muted] },
    legend: null,
  } as const;
  const dash = {
    field: 'group',
    type: 'nominal',
    scale: {
      domain,
      range: [
        [1, 0],
        [6, 3],
        [2, 3],
      ],
    },
    legend: null,
  } as const;
  const x = { field: 'age', type: 'quantitative' } as const;
  const isLast = 'datum.age === datum.oldest';
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    params: filterParams,
    data: { name: lifeTableName },
    width: 'container',
    height: HEIGHT_PX,
    transform: [
      passesFilterOf(monthsEach),
      {
        aggregate: ['began', 'late', 'left', 'called'].map((field) => ({ op: 'sum', field, as: field }) as const),
        groupby: ['group', 'step'],
      },
      { calculate: 'datum.began + datum.late - datum.left - datum.called', as: 'change' },
      {
        window: [{ op: 'sum', field: 'change', as: 'carried' }],
        frame: [null, 0],
        sort: [{ field: 'step', order: 'ascending' }],
        groupby: ['group'],
      },
      // Those under watch when the step began, and half of those who came or left within it; no fewer than called.
      {
        calculate: 'max(datum.called, datum.carried - datum.change + datum.began + (datum.late - datum.left) / 2)',
        as: 'watched',
      },
      // A step of few is left out together with all after it: their shares would lack what happened in it.
      {
        window: [{ op: 'min', field: 'watched', as: 'fewest' }],
        frame: [null, 0],
        sort: [{ field: 'step', order: 'ascending' }],
        groupby: ['group'],
      },
      { filter: `datum.fewest >= ${fewestWatched}` },
      { calculate: 'log(1 - datum.called / datum.watched)', as: 'logKept' },
      { calculate: 'datum.called / (datum.watched * (datum.watched - datum.called))', as: 'greenwood' },
      {
        window: [
          { op: 'sum', field: 'logKept', as: 'logFree' },
          { op: 'sum', field: 'greenwood', as: 'variance' },
        ],
        frame: [null, 0],
        sort: [{ field: 'step', order: 'ascending' }],
        groupby: ['group'],
      },
      { calculate: `min(${horizonDays}, (datum.step + 1) * ${stepDays})`, as: 'age' },
      { calculate: '1 - exp(datum.logFree)', as: 'share' },
      {
        // Where all called back there is nothing left to be unsure of.
        calculate: `datum.logFree < 0 && isFinite(datum.logFree) ? exp(${normal95} * sqrt(datum.variance) / datum.logFree) : 1`,
        as: 'narrower',
      },
      { calculate: '1 - exp(datum.logFree * datum.narrower)', as: 'low' },
      {
        calculate: `datum.logFree === 0 ? min(1, ${ruleOfThree} / datum.watched) : 1 - exp(datum.logFree / datum.narrower)`,
        as: 'high',
      },
      { joinaggregate: [{ op: 'max', field: 'age', as: 'oldest' }], groupby: ['group'] },
    ],
    layer: [
      {
        mark: { type: 'line', strokeWidth: 2.25, interpolate: 'linear' },
        encoding: {
          x: {
            ...x,
            title: 'days since the job',
            scale: { domain: [0, horizonDays], nice: false },
            axis: { grid: false, tickCount: { expr: 'max(3, width / 90)' } },
          },
          y: {
            field: 'share',
            type: 'quantitative',
            title: null,
            axis: { format: '.0~%', tickCount: 5 },
            scale: { zero: true },
          },
          color: colour,
          strokeDash: dash,
        },
      },
      {
        transform: [{ filter: isLast }],
        mark: { type: 'rule', strokeWidth: 2, opacity: 0.6 },
        encoding: { x, y: { field: 'low', type: 'quantitative' }, y2: { field: 'high' }, color: colour },
      },
      {
        transform: [{ filter: isLast }],
        mark: { type: 'text', align: 'right', dx: -6, dy: -7, fontSize: 11.5, fontWeight: 'bold' },
        encoding: {
          x,
          y: { field: 'share', type: 'quantitative' },
          text: { field: 'group', type: 'nominal' },
          color: colour,
        },
      },
    ],
    config: chartConfig(colours),
  };
}
