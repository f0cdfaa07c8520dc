import { withMark } from '../sources/formula-mark.ts';

/** A cell of a table; null is empty. */
export type CsvCell = string | number | boolean | null;

/**
 * A table as CSV that a spreadsheet can open, quoted as RFC 4180 says, lines ended by LF as in exports: no text in it is run as a formula.
 *
 * @param columns in their order
 */
export function csvText(columns: readonly string[], rows: readonly Readonly<Record<string, CsvCell>>[]): string {
  const lines = rows.map((row) => columns.map((column) => csvCell(row[column] ?? null)).join(','));
  return [columns.join(','), ...lines].join('\n');
}

function csvCell(value: CsvCell): string {
  if (value === null) return '';
  if (typeof value !== 'string') return String(value);
  const text = withMark(value);
  return /[",\n\r]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
