import type { ColumnView } from './column-view.ts';
import { isNumeric, meaningByName, meaningByValues } from './meaning.ts';
import type { NumberStyle } from './number-style.ts';
import { timeColumns } from './times.ts';

/** Whether a table holds readings: times, and something that an instrument shows. */
export function looksLikeReadings(views: readonly ColumnView[], style: NumberStyle): boolean {
  const reads = views.some((view) => {
    const column = (meaningByName('readings', view) ?? meaningByValues(view, new Set()))?.column;
    return column !== undefined && isNumeric(column) && column.name !== 'elapsed_s';
  });
  return reads && timeColumns(views, style).length > 0;
}
