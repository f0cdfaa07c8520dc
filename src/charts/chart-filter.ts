import type { TopLevelParameter } from 'vega-lite/types_unstable/spec/toplevel.js';
import type { FilterTransform } from 'vega-lite/types_unstable/transform.js';

/** By what the rows of a chart can be filtered in the page; '' is not known. */
export interface FilterableRow {
  /** YYYY-MM. */
  readonly month: string;
  /** Labels that tell each from every other. */
  readonly crew: string;
  readonly technician: string;
  readonly refrigerant: string;
}

/** What rows must be like to pass: signals of a chart, null where everything passes. */
export const filterNames = ['crew', 'technician', 'refrigerant', 'from', 'to'] as const;

/** A label, or for `from` and `to` a month (YYYY-MM) that still passes. */
export type FilterName = (typeof filterNames)[number];

/** Parameters of a chart that can be filtered: `view.signal(name, value)` sets one. */
export const filterParams: TopLevelParameter[] = filterNames.map((name) => ({ name, value: null }));

const conditions: Readonly<Record<FilterName, string>> = {
  crew: '(crew === null || datum.crew === crew)',
  technician: '(technician === null || datum.technician === technician)',
  refrigerant: '(refrigerant === null || datum.refrigerant === refrigerant)',
  from: '(from === null || datum.month >= from)',
  // A month that is not known is '', before every other.
  to: "(to === null || (datum.month <= to && datum.month !== ''))",
};

/** Keeps the rows that pass. */
export const passesFilter: FilterTransform = passesFilterBut();

/**
 * Keeps the rows of which any month passes, where each row is of several months and has the first of them.
 *
 * @param monthsEach 1, 3 or 12: months of a year are joined from its beginning on
 */
export function passesFilterOf(monthsEach: number): FilterTransform {
  if (monthsEach === 1) return passesFilter;
  const first = `slice(from, 0, 5) + pad(toString(${monthsEach} * floor((toNumber(slice(from, 5)) - 1) / ${monthsEach}) + 1), 2, '0', 'left')`;
  const asked = { ...conditions, from: `(from === null || datum.month >= ${first})` };
  return { filter: filterNames.map((name) => asked[name]).join(' && ') };
}

/**
 * Keeps the rows that pass, whatever these parameters say: for what the chosen rows stand beside.
 *
 * @example passesFilterBut('crew', 'technician', 'from', 'to').filter // '(refrigerant === null || datum.refrigerant === refrigerant)'
 */
export function passesFilterBut(...ignored: readonly FilterName[]): FilterTransform {
  const asked = filterNames.filter((name) => !ignored.includes(name));
  return { filter: asked.map((name) => conditions[name]).join(' && ') };
}
