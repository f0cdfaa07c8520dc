import type { TopLevelSpec } from 'vega-lite';
import type { Transform } from 'vega-lite/types_unstable/transform.js';
import { byarTransforms } from './byar-transforms.ts';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { labelAxis } from './label-axis.ts';
import { skillParams, technicianSums } from './skill-cell.ts';

export interface FoundOverExpectedOptions {
  /** Labels of the technicians to show, in order. */
  readonly technicians: readonly string[];
  /** Id of the skill that is shown at first. */
  readonly skill: string;
  readonly colours?: ChartColours;
}

/** Height of one technician's row [px]. */
export const foundOverExpectedRowPx = 30;
/** What lies beyond stands at the edge [ratio]. */
const [leastRatio, mostRatio] = [0.1, 10];

/**
 * Who has more of it than expected of such jobs?
 *
 * One row a technician: found over expected as a dot with its 95 % interval, on a logarithmic axis; an interval across the line at 1
 * shows no difference. What lies beyond a tenth or ten times stands at the edge, as an arrow head. At the right, how many were
 * found of how many judged, and how many expected.
 *
 * @returns Vega-Lite specification, to be filtered in the page; its rows are `skill-cells`, each a `SkillCell`; `skill` chooses one
 *
 * Source: breslow-day-1987 (interval)
 */
export function foundOverExpected(options: FoundOverExpectedOptions): TopLevelSpec {
  const { technicians, skill, colours = lightColours } = options;
  const drawn = (value: string) => `clamp(${value}, ${leastRatio}, ${mostRatio})`;
  const own: Transform[] = [
    ...technicianSums,
    { filter: 'indexof(listed, datum.technician) >= 0' },
    { impute: 'judged', key: 'technician', keyvals: [...technicians], value: 0 },
    { filter: 'technician === null || datum.technician === technician' },
    ...byarTransforms('found', 'expected'),
  ];
  const compared: Transform[] = [
    ...own,
    { filter: 'datum.expected > 0' },
    { calculate: drawn('datum.ratio'), as: 'drawnRatio' },
    { calculate: drawn('datum.low'), as: 'drawnLow' },
    { calculate: drawn('datum.high'), as: 'drawnHigh' },
  ];
  const x = { type: 'quantitative' as const };
  const y = labelAxis(technicians, { field: 'technician', colours });
  const counted = "datum.found + ' of ' + datum.judged";
  const expected = "format(datum.expected, '.1f') + ' expected'";
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    params: [...skillParams(skill), { name: 'listed', value: [...technicians] }],
    data: { name: 'skill-cells' },
    width: 'container',
    height: Math.max(1, technicians.length) * foundOverExpectedRowPx,
    layer: [
      {
        data: { name: 'as-expected', values: [{ ratio: 1 }] },
        mark: { type: 'rule', color: colours.ink, strokeWidth: 1.25, strokeDash: [5, 3] },
        encoding: {
          x: {
            ...x,
            field: 'ratio',
            title: 'found over expected',
            scale: { type: 'log', domain: [leastRatio, mostRatio], nice: false },
            axis: {
              values: [0.1, 0.2, 0.5, 1, 2, 5, 10],
              format: '~g',
              labelFlush: false,
              labelOverlap: 'greedy',
              labelSeparation: 4,
            },
          },
        },
      },
      {
        transform: compared,
        mark: { type: 'rule', color: colours.accent, strokeWidth: 3, strokeCap: 'round', opacity: 0.55 },
        encoding: { x: { ...x, field: 'drawnLow' }, x2: { field: 'drawnHigh' }, y },
      },
      {
        transform: compared,
        mark: {
          type: 'point',
          filled: true,
          color: colours.accent,
          size: 70,
          opacity: 1,
          shape: {
            expr: `datum.ratio < ${leastRatio} ? 'triangle-left' : datum.ratio > ${mostRatio} ? 'triangle-right' : 'circle'`,
          },
        },
        encoding: { x: { ...x, field: 'drawnRatio' }, y },
      },
      {
        transform: own,
        mark: {
          type: 'text',
          align: 'left',
          baseline: 'middle',
          dx: 8,
          dy: { expr: `${isNarrow} && datum.judged > 0 ? -6 : 0` },
          lineHeight: 12,
          color: colours.muted,
          fontSize: { expr: `${isNarrow} ? 10 : 11` },
        },
        encoding: {
          x: { value: 'width' },
          y,
          text: {
            value: {
              expr: `datum.judged === 0 ? 'none judged' : ${isNarrow} ? [${counted}, ${expected}] : ${counted} + '; ' + ${expected}`,
            },
          },
        },
      },
    ],
    config: chartConfig(colours),
  };
}

/** Where the figures at the right need two lines. */
const isNarrow = 'containerSize()[0] < 480';
