import type { TopLevelSpec } from 'vega-lite';
import type { Transform } from 'vega-lite/types_unstable/transform.js';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { type FilterableRow, filterParams, passesFilter, passesFilterBut } from './chart-filter.ts';

/** A row of `limit-points`: one job. */
export interface LimitPoint extends FilterableRow {
  readonly job: string;
  /** ISO 8601 date. */
  readonly day: string;
  /** What was measured over the job's own limit [ratio], above 0. */
  readonly ratio: number;
  readonly outcome: 'pass' | 'suspect' | 'fail';
  /** How many jobs it stands for [count], above 0: more than one where some of many are shown. */
  readonly weight: number;
}

export interface LimitMarginsOptions {
  readonly colours?: ChartColours;
}

/** Height of the chart without its axis [px]. */
const HEIGHT_PX = 240;
/** What lies beyond stands at the edge: figures beyond say no more than that [ratio]. */
const [leastRatio, mostRatio] = [0.01, 100];
/** Weights add up but for this [count]. */
const hair = 1e-6;
const ticks = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100];

/**
 * How far from its own limit did each job end?
 *
 * One point a job, over its day: a dot where it passed, a triangle where it is suspect, a square where it failed. The line at 1 is
 * the limit, and each month has a bar at the median of its jobs, each of which counts for as many as it stands for. The axes hold still while people are chosen, so that what
 * is chosen can be told from the rest; a period widens the days that it keeps. Days are days in UTC.
 *
 * Ten thousand points are drawn in 0.6 to 0.9 s and filtered in 0.1 to 0.3 s, measured as SVG in a browser on two busy cores.
 *
 * @returns Vega-Lite specification, to be filtered in the page; its rows are `limit-points`, each a `LimitPoint`
 */
export function limitMargins({ colours = lightColours }: LimitMarginsOptions = {}): TopLevelSpec {
  const placed: Transform[] = [
    { filter: "datum.ratio > 0 && datum.day !== ''" },
    { calculate: 'toDate(datum.day)', as: 'at' },
    { calculate: `clamp(datum.ratio, ${leastRatio}, ${mostRatio})`, as: 'drawnRatio' },
  ];
  const passing: Transform[] = [...placed, passesFilter];
  const medians: Transform[] = [
    ...passing,
    { joinaggregate: [{ op: 'sum', field: 'weight', as: 'all' }], groupby: ['month'] },
    {
      window: [{ op: 'sum', field: 'weight', as: 'upTo' }],
      frame: [null, 0],
      sort: [{ field: 'drawnRatio', order: 'ascending' }],
      groupby: ['month'],
    },
    // Half of all lie at or below the one, and more than half at or below the other; mostly they are the same.
    { calculate: `datum.upTo >= datum.all / 2 - ${hair} ? datum.drawnRatio : null`, as: 'half' },
    { calculate: `datum.upTo > datum.all / 2 + ${hair} ? datum.drawnRatio : null`, as: 'most' },
    { aggregate: ['half', 'most'].map((field) => ({ op: 'min', field, as: field })), groupby: ['month'] },
    { calculate: '(datum.half + datum.most) / 2', as: 'median' },
    { calculate: "toDate(datum.month + '-01')", as: 'from' },
    { calculate: "utcOffset('month', datum.from, 1)", as: 'until' },
  ];
  const x = { type: 'temporal' as const };
  const y = { type: 'quantitative' as const };
  const [at, drawnRatio] = [
    { ...x, field: 'at' },
    { ...y, field: 'drawnRatio' },
  ];
  const isFail = "datum.outcome === 'fail'";
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    params: filterParams,
    data: { name: 'limit-points' },
    width: 'container',
    height: HEIGHT_PX,
    layer: [
      {
        // Not seen: the axes reach so far.
        transform: [
          ...placed,
          {
            joinaggregate: [
              { op: 'min', field: 'drawnRatio', as: 'least' },
              { op: 'max', field: 'drawnRatio', as: 'most' },
            ],
          },
          passesFilterBut('crew', 'technician', 'refrigerant'),
          {
            aggregate: [
              { op: 'min', field: 'at', as: 'first' },
              { op: 'max', field: 'at', as: 'last' },
              { op: 'min', field: 'least', as: 'least' },
              { op: 'max', field: 'most', as: 'most' },
            ],
            groupby: [],
          },
          { filter: 'isValid(datum.first)' },
          { calculate: '[datum.first, datum.last]', as: 'at' },
          { calculate: '[datum.least, datum.most]', as: 'drawnRatio' },
          { flatten: ['at', 'drawnRatio'] },
        ],
        mark: { type: 'point', opacity: 0 },
        encoding: {
          x: {
            ...at,
            title: null,
            scale: { type: 'utc' },
            axis: {
              grid: false,
              format: { year: '%Y', quarter: '%b', month: '%b', week: '%-d %b', date: '%-d %b' },
              tickCount: { expr: 'max(2, width / 90)' },
              labelOverlap: 'greedy',
              labelSeparation: 6,
            },
          },
          y: {
            ...drawnRatio,
            title: 'measured over the limit',
            scale: { type: 'log', domain: { unionWith: [0.5, 2] }, nice: false },
            axis: { values: ticks, format: '~g', labelOverlap: 'greedy' },
          },
        },
      },
      {
        transform: [...passing, { filter: "datum.outcome === 'pass'" }],
        mark: {
          type: 'point',
          filled: true,
          shape: 'circle',
          size: 14,
          color: colours.pass,
          strokeWidth: 0,
          opacity: 0.5,
        },
        encoding: { x: at, y: drawnRatio },
      },
      {
        transform: [...passing, { filter: "datum.outcome !== 'pass'" }],
        mark: {
          type: 'point',
          filled: true,
          shape: { expr: `${isFail} ? 'square' : 'triangle-up'` },
          color: { expr: `${isFail} ? '${colours.fail}' : '${colours.suspect}'` },
          size: 32,
          strokeWidth: 0,
          opacity: 0.9,
        },
        encoding: { x: at, y: drawnRatio },
      },
      {
        data: { name: 'limit', values: [{ limit: 1 }] },
        mark: { type: 'rule', color: colours.paper, strokeWidth: 4, opacity: 0.8 },
        encoding: { x: { value: 0 }, x2: { value: 'width' }, y: { ...y, field: 'limit' } },
      },
      {
        data: { name: 'limit' },
        mark: { type: 'rule', color: colours.fail, strokeWidth: 1.5, strokeDash: [6, 3] },
        encoding: { x: { value: 0 }, x2: { value: 'width' }, y: { ...y, field: 'limit' } },
      },
      {
        data: { name: 'limit' },
        mark: { type: 'text', align: 'left', dx: 8, color: colours.fail, fontSize: 11 },
        encoding: { x: { value: 'width' }, y: { ...y, field: 'limit' }, text: { value: 'limit' } },
      },
      {
        transform: medians,
        mark: { type: 'rule', color: colours.paper, strokeWidth: 5, opacity: 0.8 },
        encoding: { x: { ...x, field: 'from' }, x2: { field: 'until' }, y: { ...y, field: 'median' } },
      },
      {
        transform: medians,
        mark: { type: 'rule', color: colours.ink, strokeWidth: 2.5 },
        encoding: { x: { ...x, field: 'from' }, x2: { field: 'until' }, y: { ...y, field: 'median' } },
      },
    ],
    config: chartConfig(colours),
  };
}
