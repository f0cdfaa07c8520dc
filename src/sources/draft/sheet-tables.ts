import { fileKindOf } from '../file-kinds.ts';
import { cellText } from '../xlsx.ts';
import type { FoundTables, GridLine } from './draft.ts';
import { gridTables } from './grid-tables.ts';
import { headPlaces } from './head-places.ts';

/** The first rows of a sheet, with its place in the workbook from 1. */
export interface SheetSample {
  readonly sheet: number;
  readonly rows: readonly { readonly line: number; readonly cells: readonly unknown[] }[];
}

/** The tables of a workbook: those of the sheet that holds most; undefined where none holds any. */
export function sheetTables(name: string, sheets: readonly SheetSample[]): FoundTables | undefined {
  const found = sheets.map(({ sheet, rows }) => {
    const lines = squared(rows);
    const grid = gridTables(lines, { isSheet: true, tail: [], ...(sheet === 1 ? {} : { sheet }) });
    return { sheet, ...grid, weight: Math.max(0, ...grid.tables.map((table) => table.weight)) };
  });
  const [main, ...others] = found.toSorted((a, b) => b.weight - a.weight);
  if (main === undefined || main.tables.length === 0) return undefined;
  const further = others.filter(({ tables }) => tables.some((table) => table.weight > 1));
  const heads = [main, ...others.filter((each) => !further.includes(each))].flatMap(({ sheet, preamble, tables }) =>
    headPlaces(
      tables.length > 0 && sheet !== main.sheet ? allLines(sheets, sheet) : preamble,
      sheet === 1 ? undefined : sheet,
    ),
  );
  return {
    kind: 'xlsx',
    content: `a workbook${sheets.length > 1 ? `, its table on sheet ${main.sheet}` : ''}`,
    file: fileKindOf(name)?.id === 'xlsx' ? {} : { kind: 'xlsx' },
    tables: main.tables,
    heads,
    doubts: further.map(({ sheet }) => ({
      where: 'file.sheet',
      text: `sheet ${sheet} holds a table too; only sheet ${main.sheet} is drafted. Make a second map for it`,
    })),
  };
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
