import type { TopLevelSpec } from 'vega-lite';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { passesFilter } from './chart-filter.ts';
import { labelAxis } from './label-axis.ts';
import { skillParams } from './skill-cell.ts';

export interface CarriedJudgementOptions {
  /** Labels of the technicians to show, in order. */
  readonly technicians: readonly string[];
  /** Id of the skill that is shown at first. */
  readonly skill: string;
  readonly colours?: ChartColours;
}

/** Height of one technician's row [px]. */
export const judgedRowPx = 27;

/**
 * On how many jobs can each one's logs carry a judgement, in the chosen skill?
 *
 * A bar a technician, by name: the share of jobs that could be judged, within a frame that stands for all of them; the counts at the right.
 *
 * @returns Vega-Lite specification, to be filtered in the page; its rows are `skill-cells`, each a `SkillCell`
 */
export function carriedJudgement({
  technicians,
  skill,
  colours = lightColours,
}: CarriedJudgementOptions): TopLevelSpec {
  const y = labelAxis(technicians, { field: 'technician', colours });
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    // A label is no text of an expression: it may hold anything.
    params: [...skillParams(skill), { name: 'listed', value: [...technicians] }],
    data: { name: 'skill-cells' },
    width: 'container',
    height: Math.max(1, technicians.length) * judgedRowPx,
    transform: [
      passesFilter,
      { filter: 'datum.skill === skill' },
      { filter: 'indexof(listed, datum.technician) >= 0' },
      {
        aggregate: [
          { op: 'sum', field: 'jobs', as: 'jobs' },
          { op: 'sum', field: 'judged', as: 'judged' },
        ],
        groupby: ['technician'],
      },
      { filter: 'datum.jobs > 0' },
      { calculate: 'datum.judged / datum.jobs', as: 'share' },
      { calculate: "datum.judged + ' of ' + datum.jobs", as: 'counts' },
    ],
    layer: [
      {
        mark: { type: 'bar', height: 13, fill: null, stroke: colours.muted, strokeWidth: 1 },
        encoding: { x: { datum: 1, type: 'quantitative' }, y },
      },
      {
        mark: { type: 'bar', height: 13, color: colours.accent, opacity: 0.75 },
        encoding: {
          x: {
            field: 'share',
            type: 'quantitative',
            title: 'share of jobs that could be judged',
            scale: { domain: [0, 1], nice: false },
            axis: { format: '.0%', tickCount: 5, labelFlush: false },
          },
          y,
        },
      },
      {
        mark: { type: 'text', align: 'left', dx: 8, color: colours.muted, fontSize: 11 },
        encoding: { x: { value: 'width' }, y, text: { field: 'counts', type: 'nominal' } },
      },
    ],
    config: chartConfig(colours),
  };
}
