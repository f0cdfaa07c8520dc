import type { TopLevelParameter } from 'vega-lite/types_unstable/spec/toplevel.js';
import type { Transform } from 'vega-lite/types_unstable/transform.js';
import { type FilterableRow, filterParams, passesFilter } from './chart-filter.ts';

/** A row of `skill-cells`: jobs that are alike in all that can be filtered by, judged for one skill. */
export interface SkillCell extends FilterableRow {
  /** Id of the skill. */
  readonly skill: string;
  /** All jobs, and those of them that could be judged. */
  readonly jobs: number;
  readonly judged: number;
  /** In how many of them it was found. */
  readonly found: number;
  /** The sum of the chances that it would be found in each of them [count]. */
  readonly expected: number;
}

/**
 * Parameters of a chart of `skill-cells`: those of every filter, and `skill`, the id of the one that is shown.
 *
 * @param skill shown at first
 */
export function skillParams(skill: string): TopLevelParameter[] {
  return [...filterParams, { name: 'skill', value: skill }];
}

/** Sums over what passes of the skill that is shown: one row a technician, with `ratio`, found over expected, null where none is expected. */
export const technicianSums: Transform[] = [
  passesFilter,
  { filter: "datum.skill === skill && datum.technician !== ''" },
  {
    aggregate: ['judged', 'found', 'expected'].map((field) => ({ op: 'sum', field, as: field })),
    groupby: ['technician'],
  },
  { calculate: 'datum.expected > 0 ? datum.found / datum.expected : null', as: 'ratio' },
];
