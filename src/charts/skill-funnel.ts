import type { TopLevelSpec } from 'vega-lite';
import type { Transform } from 'vega-lite/types_unstable/transform.js';
import { type FunnelPoint, funnelGrid } from '../fleet/statistics/funnel-curve.ts';
import type { FunnelLimits } from '../fleet/statistics/funnel-limits.ts';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { skillParams, technicianSums } from './skill-cell.ts';

/** A row of `funnel-limits`: limits of found over expected [ratio] where so many are expected of a skill. */
export interface FunnelLimitRow extends FunnelLimits {
  /** Skill and step of the grid, by which a technician's row finds it. */
  readonly key: string;
  readonly skill: string;
  /** [count] */
  readonly expected: number;
}

export interface SkillFunnelOptions {
  /** Id of the skill that is shown at first. */
  readonly skill: string;
  readonly colours?: ChartColours;
}

/** Height of the chart without its axis [px]. */
const HEIGHT_PX = 240;
/** What lies beyond stands at the edge [ratio]. */
const MOST_RATIO = 5;
/** The rows are as they should be: nothing is parsed, so that points find their limits in the very data that the page gives. */
const curveData = { name: 'funnel-limits', format: { parse: null } };
/** So many names at most. */
const MOST_NAMES = 5;

/**
 * A skill's curve as rows of `funnel-limits`, to four places.
 *
 * @param curve as `funnelCurve` gives it, up to the most that is expected of any technician
 */
export function funnelLimitRows(skill: string, curve: readonly FunnelPoint[]): FunnelLimitRow[] {
  return curve.map(({ step, ...limits }) => {
    const rounded = Object.entries(limits).map(([name, value]) => [name, Number(value.toFixed(4))]);
    return { key: `${skill} ${step}`, skill, ...Object.fromEntries(rounded) };
  });
}

/**
 * Whose jobs show more of it than chance explains?
 *
 * One point a technician: how many are expected of such jobs, on a logarithmic axis, and found over expected. Between the dashed
 * curves lie 95 of 100 by chance, between the solid ones 998 of 1,000. Outside those a point is a triangle, up or down, and the
 * farthest have their names where none is in the way of another. What is over five times as many as expected, or of which less than
 * 0.25 is expected, stands at the edge.
 *
 * @returns Vega-Lite specification, to be filtered in the page; its rows are `skill-cells`, each a `SkillCell`, and `funnel-limits`,
 *   each a `FunnelLimitRow`; `skill` chooses one
 *
 * Source: spiegelhalter-2005 (limits, made when the report is)
 */
export function skillFunnel({ skill, colours = lightColours }: SkillFunnelOptions): TopLevelSpec {
  const limits = (step: string, names: readonly string[]): Transform[] => [
    { calculate: `skill + ' ' + ${step}`, as: 'key' },
    {
      lookup: 'key',
      from: { data: curveData, key: 'key', fields: ['low998', 'high998'] },
      as: [...names],
    },
  ];
  const between = (before: string, after: string) =>
    `datum.${before} + datum.along * (datum.${after} - datum.${before})`;
  const points: Transform[] = [
    ...technicianSums,
    { filter: 'datum.expected > 0' },
    { calculate: `max(${funnelGrid.least}, datum.expected)`, as: 'drawnExpected' },
    { calculate: `min(${MOST_RATIO}, datum.ratio)`, as: 'drawnRatio' },
    { calculate: `log(datum.expected / ${funnelGrid.least}) / ${Math.log(funnelGrid.factor)}`, as: 'place' },
    { calculate: 'datum.place - floor(datum.place)', as: 'along' },
    ...limits('floor(datum.place)', ['lowBefore', 'highBefore']),
    ...limits('(floor(datum.place) + 1)', ['lowAfter', 'highAfter']),
    { calculate: 'isValid(datum.highBefore) && isValid(datum.highAfter)', as: 'isOnCurve' },
    {
      calculate: `!datum.isOnCurve ? 0 : datum.ratio > ${between('highBefore', 'highAfter')} ? 1 : datum.ratio < ${between('lowBefore', 'lowAfter')} ? -1 : 0`,
      as: 'side',
    },
  ];
  const named: Transform[] = [
    ...points,
    { filter: 'datum.side !== 0' },
    { calculate: 'abs(datum.ratio - 1) * sqrt(datum.expected)', as: 'distance' },
    {
      window: [{ op: 'row_number', as: 'rank' }],
      sort: [
        { field: 'distance', order: 'descending' },
        { field: 'technician', order: 'ascending' },
      ],
    },
    { filter: `datum.rank <= ${MOST_NAMES}` },
    {
      window: [
        { op: 'lag', field: 'drawnExpected', as: 'nextExpected' },
        { op: 'lag', field: 'drawnRatio', as: 'nextRatio' },
      ],
      sort: [
        { field: 'drawnRatio', order: 'ascending' },
        { field: 'technician', order: 'ascending' },
      ],
    },
  ];
  const curves = (names: readonly string[]): Transform[] => [
    { filter: 'datum.skill === skill' },
    { fold: [...names], as: ['which', 'limit'] },
  ];
  const x = { type: 'quantitative' as const };
  const y = { type: 'quantitative' as const };
  const isRight = "scale('x', datum.drawnExpected) > width / 2";
  const apartPx = (scale: 'x' | 'y', one: string, other: string) =>
    `abs(scale('${scale}', datum.${one}) - scale('${scale}', datum.${other}))`;
  const isInTheWay = `isValid(datum.nextRatio) && ${apartPx('y', 'drawnRatio', 'nextRatio')} < 13 && ${apartPx('x', 'drawnExpected', 'nextExpected')} < 110`;
  const curve = { type: 'line' as const, color: colours.muted, interpolate: 'linear' as const, clip: true };
  const curveEncoding = {
    x: { ...x, field: 'expected' },
    y: { ...y, field: 'limit' },
    detail: { field: 'which' },
  };
  const nameMark = {
    type: 'text' as const,
    fontSize: 11,
    align: { expr: `${isRight} ? 'right' : 'left'` },
    dx: { expr: `${isRight} ? -8 : 8` },
    // Not on the axis.
    dy: { expr: 'datum.drawnRatio < 0.1 ? -7 : 0' },
    limit: { expr: 'width / 2' },
    opacity: { expr: `${isInTheWay} ? 0 : 1` },
  };
  const name = {
    transform: named,
    encoding: {
      x: { ...x, field: 'drawnExpected' },
      y: { ...y, field: 'drawnRatio' },
      text: { field: 'technician', type: 'nominal' as const },
    },
  };
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    params: skillParams(skill),
    data: { name: 'skill-cells' },
    width: 'container',
    height: HEIGHT_PX,
    layer: [
      {
        data: curveData,
        transform: curves(['low95', 'high95']),
        mark: { ...curve, strokeWidth: 1.25, strokeDash: [4, 3] },
        encoding: curveEncoding,
      },
      {
        data: curveData,
        transform: curves(['low998', 'high998']),
        mark: { ...curve, strokeWidth: 1.5 },
        encoding: curveEncoding,
      },
      {
        data: { name: 'as-expected', values: [{ ratio: 1 }] },
        mark: { type: 'rule', color: colours.ink, strokeWidth: 1.25 },
        encoding: { x: { value: 0 }, x2: { value: 'width' }, y: { ...y, field: 'ratio' } },
      },
      {
        transform: points,
        mark: {
          type: 'point',
          filled: true,
          size: { expr: 'datum.side === 0 ? 46 : 70' },
          opacity: { expr: 'datum.side === 0 ? 0.75 : 1' },
          shape: { expr: "datum.side > 0 ? 'triangle-up' : datum.side < 0 ? 'triangle-down' : 'circle'" },
          color: {
            expr: `datum.side > 0 ? '${colours.fail}' : datum.side < 0 ? '${colours.pass}' : '${colours.accent}'`,
          },
        },
        encoding: {
          x: {
            ...x,
            field: 'drawnExpected',
            title: 'expected of such jobs',
            scale: { type: 'log', nice: false },
            axis: {
              grid: false,
              values: [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000],
              format: '~g',
              labelOverlap: 'greedy',
              labelSeparation: 6,
            },
          },
          y: {
            ...y,
            field: 'drawnRatio',
            title: 'found over expected',
            scale: { domain: { unionWith: [0, 2] } },
            axis: { tickCount: 5, format: '~g' },
          },
        },
      },
      { ...name, mark: { ...nameMark, stroke: colours.paper, strokeWidth: 4, strokeJoin: 'round' } },
      { ...name, mark: nameMark },
    ],
    config: chartConfig(colours),
  };
}
