import { parseCell, quoted } from './cell.ts';
import { type Column, columnsOf, type Table } from './table.ts';

/** A row as a source gives it: column name → text or value; null, undefined and empty text mean "not known". */
export type RawRow = Readonly<Record<string, unknown>>;

/** A typed row, or the first thing that is wrong with it. */
export type ParsedRow = { row: Record<string, unknown> } | { column: string; problem: string };

/**
 * Makes the parser of one table's rows: text cells become typed values, then the table's zod schema judges them.
 *
 * @example rowParser(gauges)({ gauge_id: 'VG-1', step_pa: '0.13' }) // { row: { gauge_id: 'VG-1', step_pa: 0.13 } }
 */
export function rowParser(table: Table): (raw: RawRow) => ParsedRow {
  const columns = columnsOf(table);
  return (raw) => {
    const row: Record<string, unknown> = {};
    for (const column of columns) {
      const parsed = parseField(column, raw[column.name]);
      if ('problem' in parsed) return { column: column.name, problem: parsed.problem };
      if (parsed.value !== undefined) row[column.name] = parsed.value;
    }
    const judged = table.schema.safeParse(row);
    if (judged.success) return { row };
    const issue = judged.error.issues[0];
    const name = String(issue.path[0] ?? '');
    const known = columns.find((column) => column.name === name);
    return { column: name, problem: explained(known, row[name]) ?? issue.message };
  };
}

function parseField(column: Column, value: unknown): { value: unknown } | { problem: string } {
  if (value === undefined || value === null || value === '') return { value: undefined };
  if (typeof value === 'string') {
    if (value.trim() === '') return { value: undefined };
    return parseCell(column.kind, value, column.over === true);
  }
  if (column.over && value === Number.POSITIVE_INFINITY) return { value: 'over' };
  if (typeof value === 'bigint') return { value: Number(value) };
  if (typeof value === 'number' && column.kind === 'text') return { value: String(value) };
  return { value };
}

/** What is wrong with a value, in a person's words; undefined where the schema's own words must do. */
function explained(column: Column | undefined, value: unknown): string | undefined {
  if (column === undefined) return undefined;
  if (value === undefined) return 'required, but empty';
  const shown = shownValue(value);
  if (column.kind === 'choice') return `${shown} is none of ${column.words?.join(', ')}`;
  if (column.kind === 'instant')
    return `${shown} is no time of ISO 8601 with an offset, such as 2026-03-05T14:30:00+01:00`;
  if (column.kind === 'date') return `${shown} is no day of ISO 8601, such as 2026-03-05`;
  if (column.min !== undefined && typeof value !== 'number') return `not a number: ${shown}`;
  if (typeof value === 'number' && column.min !== undefined && column.max !== undefined) {
    return `${shown} is not from ${column.min} to ${column.max}${column.unit ? ` ${column.unit}` : ''}`;
  }
  return undefined;
}

function shownValue(value: unknown): string {
  if (typeof value === 'number') return String(value);
  if (typeof value === 'string') return quoted(value);
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
}
