import { figureTable } from '../figure-table.ts';
import { type Html, html } from '../html.ts';
import type { ShownTable, ShownValue } from './notebook-output.ts';

/** Rows that a page carries of a table. */
const mostRows = 500;

/** A table as a notebook shows it. Columns of figures stand to the right; of many rows the first are there, and how many there are. */
export function shownTable({ title, rows }: ShownTable): Html {
  const heads = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const some = rows.slice(0, mostRows);
  const texts = heads.flatMap((head, at) => (rows.every((row) => isFigure(row[head])) ? [] : [at]));
  const table = figureTable({
    caption: title,
    heads,
    rows: some.map((row) => heads.map((head) => cellText(row[head]))),
    texts,
  });
  if (rows.length === 0) return html`<p class="quiet">${title}: no rows.</p>`;
  return html`${table}${rows.length > some.length && html`<p class="quiet">The first ${some.length} of ${rows.length} rows; <code>--json</code> gives all.</p>`}`;
}

/** A value as a table shows it: numbers to four figures at least, above a gauge's range as `over`. */
export function cellText(value: ShownValue): string {
  if (typeof value !== 'number') return value === null || value === undefined ? '' : String(value);
  if (Number.isNaN(value)) return '';
  if (value === Number.POSITIVE_INFINITY) return 'over';
  const rounded =
    Number.isInteger(value) || Math.abs(value) >= 1000 ? value.toFixed(0) : String(Number(value.toPrecision(4)));
  return rounded.replace(/^-/, '−');
}

/** Whether a value is read as a figure: a number, or a text that begins as one. */
function isFigure(value: ShownValue): boolean {
  return (
    value === null || value === undefined || typeof value === 'number' || /^[^\p{L}]*\d|^[–-]?$/u.test(String(value))
  );
}
