import { fileKindOf } from '../file-kinds.ts';
import { cellText } from '../xlsx.ts';
import type { FoundTables, GridLine } from './draft.ts';
import { styleOf } from './column-view.ts';
import type { GridTable } from './grid-kind.ts';
import { gridTables } from './grid-tables.ts';
import { looksLikeReadings } from './looks-like-readings.ts';
import { recordTableOf } from './record-table.ts';
import { tableViews } from './table-views.ts';
import { headPlaces } from './head-places.ts';

/** The first rows of a sheet, with its place in the workbook from 1. */
export interface SheetSample {
  readonly sheet: number;
  readonly rows: readonly { readonly line: number; readonly cells: readonly unknown[] }[];
}

/** The tables of a workbook: those of the sheets whose columns are known, else of the one that holds most; undefined where none holds any. */
export function sheetTables(name: string, sheets: readonly SheetSample[]): FoundTables | undefined {
  const found = sheets.map(({ sheet, rows }) => {
    const lines = squared(rows);
    const grid = gridTables(lines, { isSheet: true, tail: [], ...(sheet === 1 ? {} : { sheet }) });
    return { sheet, ...grid, weight: Math.max(0, ...grid.tables.map((table) => table.weight)) };
  });
  const [main, ...others] = found.toSorted(
    (a, b) => Number(b.tables.some(isKnown)) - Number(a.tables.some(isKnown)) || b.weight - a.weight,
  );
  if (main === undefined || main.tables.length === 0) return undefined;
  const further = others.filter(({ tables }) => tables.some((table) => table.weight > 1));
  const chosen = [main, ...further.filter(({ tables }) => tables.some(isKnown))].toSorted((a, b) => a.sheet - b.sheet);
  const left = further.filter((each) => !chosen.includes(each));
  const heads = [...chosen, ...others.filter((each) => !further.includes(each))].flatMap((each) =>
    headPlaces(
      each.tables.length > 0 && !chosen.includes(each) ? allLines(sheets, each.sheet) : each.preamble,
      each.sheet === 1 ? undefined : each.sheet,
    ),
  );
  const tables = chosen.flatMap((each) => (each === main ? each.tables : each.tables.filter(isKnown)));
  return {
    kind: 'xlsx',
    content: `a workbook${sheets.length > 1 ? `, its ${chosen.length > 1 ? 'tables on sheets' : 'table on sheet'} ${chosen.map(({ sheet }) => sheet).join(', ')}` : ''}`,
    file: fileKindOf(name)?.id === 'xlsx' ? {} : { kind: 'xlsx' },
    tables: chosen.length > 1 ? tables.map(asPart) : tables,
    heads,
    doubts: left.map(({ sheet }) => ({
      where: 'file.sheet',
      text: `sheet ${sheet} holds a table too; its columns are not known here, and it is not drafted. Make a second map for it`,
    })),
  };
}

/** Whether a table's columns say what it lists. */
function isKnown(table: GridTable): boolean {
  const style = styleOf([table]);
  const views = tableViews(table, style);
  return recordTableOf(views) !== undefined || looksLikeReadings(views, style);
}

/** Doubts of a table that is one part of several. */
function asPart(table: GridTable, index: number): GridTable {
  const doubts = table.doubts.map(({ where, text }) => ({
    where: where.replace(/^(?:file|parts\.[^.]+)/, `parts.part-${index + 1}`),
    text,
  }));
  return { ...table, doubts };
}

function allLines(sheets: readonly SheetSample[], sheet: number): GridLine[] {
  return squared(sheets.find((each) => each.sheet === sheet)?.rows ?? []);
}

/** The rows as lines of text, all as wide as the widest: a sheet leaves out what is empty at the end of a row. */
function squared(rows: SheetSample['rows']): GridLine[] {
  const width = rows.reduce((most, { cells }) => Math.max(most, cells.length), 0);
  return rows.map(({ line, cells }) => {
    const texts = Array.from({ length: width }, (_, index) => cellText(cells[index]));
    return { line, cells: texts, text: texts.find((text) => text !== '') ?? '' };
  });
}
