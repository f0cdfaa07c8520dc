import { readFileSync } from 'node:fs';
import { streamXlsxRows } from 'hucre/xlsx';
import { DryholdError } from '../errors.ts';
import {
  type FileKind,
  type Layout,
  mostColumns,
  noTable,
  rawLimit,
  type SourceRow,
  type SourceRows,
} from './source-file.ts';
import { checkWorkbook } from './workbook-parts.ts';

/** So many cells can be named by their position, however short the first row is. */
const leastColumns = 1000;

/** One sheet of an Office Open XML workbook (ECMA-376); cells hold values, formulas their last result. `line` is the row's number. */
export const xlsx = {
  id: 'xlsx' as const,
  extensions: ['.xlsx'],
  inBundles: false,
  async rows(path: string, layout: Layout): Promise<SourceRows> {
    const rows = tableRows(path, layout);
    const first = await rows.next();
    const sheet = layout.sheet === undefined ? 'its first sheet' : `sheet "${layout.sheet}"`;
    const problem = `${sheet} is not there, or empty where the map looks`;
    if (first.done) throw new DryholdError('file-unreadable', { path, problem }, noTable);
    const close = async () => {
      await rows.return(undefined);
    };
    const { cells } = first.value;
    if (layout.header === false) {
      // Empty cells at the end of a row are not kept: the first row does not tell how wide the table is.
      const positions = Array.from({ length: Math.max(cells.length, leastColumns) }, (_, index) => String(index + 1));
      return { columns: positions, rows: sourceRows(rows, first.value), close };
    }
    const columns = cells.map(cellText);
    const units = layout.unitRow ? ((await rows.next()).value?.cells ?? []).map(cellText) : undefined;
    for (let skipped = 0; skipped < (layout.skipAfterHeader ?? 0); skipped += 1) await rows.next();
    return { columns, ...(units === undefined ? {} : { units }), rows: sourceRows(rows), close };
  },
} satisfies FileKind;

interface SheetRow {
  readonly line: number;
  readonly cells: readonly unknown[];
}

/** The first rows of a sheet, for values that stand above its table. */
export async function firstSheetRows(
  path: string,
  sheet: string | number | undefined,
  count: number,
): Promise<SheetRow[]> {
  const found: SheetRow[] = [];
  for await (const row of sheetRows(path, sheet === undefined ? {} : { sheet })) {
    if (row.line > count) break;
    found.push(row);
  }
  return found;
}

/** What a cell reads as. */
export function cellText(cell: unknown): string {
  return typeof cell === 'string' || typeof cell === 'number' || typeof cell === 'boolean' ? String(cell).trim() : '';
}

async function* tableRows(path: string, layout: Layout): AsyncGenerator<SheetRow, undefined> {
  const { afterLine, skipLines = 0, headerBegins, untilLine } = layout;
  let from = afterLine === undefined ? skipLines : undefined;
  let begun = false;
  for await (const row of sheetRows(path, layout)) {
    const text = row.cells.map(cellText).find((cell) => cell !== '') ?? '';
    if (from === undefined) {
      if (afterLine !== undefined && text.startsWith(afterLine)) from = row.line + skipLines;
      continue;
    }
    if (row.line <= from) continue;
    begun ||= headerBegins === undefined || text.startsWith(headerBegins);
    if (!begun) continue;
    if (untilLine !== undefined && text.startsWith(untilLine)) return;
    if (text !== '') yield row;
  }
}

async function* sheetRows(path: string, { sheet, range }: Layout): AsyncGenerator<SheetRow> {
  const offset = range === undefined ? 0 : columnNumber(/^[A-Za-z]+/.exec(range)?.[0] ?? 'A') - 1;
  const firstLine = Number(/\d+/.exec(range ?? '1')?.[0]);
  try {
    await checkWorkbook(path);
    const which = typeof sheet === 'number' ? sheet - 1 : (sheet ?? 0);
    for await (const { index, values } of streamXlsxRows(readFileSync(path), {
      sheet: which,
      ...(range === undefined ? {} : { range: range.toUpperCase() }),
    })) {
      if (values.length > mostColumns) throw new Error(`row ${index + 1} has more than ${mostColumns} cells`);
      if (index + 1 >= firstLine) yield { line: index + 1, cells: values.slice(offset).map(plainCell) };
    }
  } catch (error) {
    if (error instanceof DryholdError) throw error;
    const problem = `no workbook that can be read (${(error as Error).message.split('\n')[0]})`;
    throw new DryholdError('file-unreadable', { path, problem }, error);
  }
}

function columnNumber(letters: string): number {
  return Array.from(letters.toUpperCase(), (letter) => letter.charCodeAt(0) - 64).reduce(
    (number, place) => number * 26 + place,
    0,
  );
}

/** A date as the text on its clock: a sheet knows no time zones. Before day 1 there is only a time of day. */
function plainCell(cell: unknown): unknown {
  if (!(cell instanceof Date)) return typeof cell === 'boolean' ? String(cell) : cell;
  const text = cell
    .toISOString()
    .replace('T', ' ')
    .replace(/(\.000)?Z$/, '');
  return cell.getTime() < Date.UTC(1900, 0, 1) ? text.slice(11) : text;
}

async function* sourceRows(rows: AsyncIterable<SheetRow>, first?: SheetRow): AsyncGenerator<SourceRow> {
  if (first !== undefined) yield sourceRow(first);
  for await (const row of rows) yield sourceRow(row);
}

function sourceRow({ line, cells }: SheetRow): SourceRow {
  return { line, cells, raw: () => cells.map(cellText).join('\t').slice(0, rawLimit) };
}
