import { columnsOf, type Table } from '../records/table.ts';
import { isBareFormula, isMarked, withoutMark } from '../sources/formula-mark.ts';
import type { SourceRow, SourceRows } from '../sources/source-file.ts';
import { exportColumns } from '../store/export-table.ts';

/**
 * Whether a CSV file of a bundle is an export of ours whose texts carry marks (`src/sources/formula-mark.ts`): its header is the one that
 * `export` writes, marks are in it, and no text begins as an export lets none begin. In any other file an apostrophe is what
 * its writer meant.
 */
export async function hasExportMarks({ columns, rows }: SourceRows, table: Table): Promise<boolean> {
  const isHeader = [false, true].some(
    (codes) => JSON.stringify(exportColumns(table, codes).map(({ name }) => name)) === JSON.stringify(columns),
  );
  if (!isHeader) return false;
  const places = textPlaces(columns, table);
  let isSeen = false;
  for await (const { cells = [] } of rows)
    for (const place of places) {
      const text = cells[place];
      if (typeof text !== 'string') continue;
      if (isBareFormula(text)) return false;
      isSeen ||= isMarked(text);
    }
  return isSeen;
}

/** The rows of such an export without the marks. */
export function unmarkedRows(source: SourceRows, table: Table): SourceRows {
  const places = new Set(textPlaces(source.columns, table));
  const unmarked = async function* (): AsyncGenerator<SourceRow> {
    for await (const row of source.rows)
      yield {
        ...row,
        cells: row.cells?.map((cell, place) =>
          places.has(place) && typeof cell === 'string' ? withoutMark(cell) : cell,
        ),
      };
  };
  return { ...source, rows: unmarked() };
}

function textPlaces(columns: readonly string[], table: Table): number[] {
  const texts = new Set(columnsOf(table).flatMap(({ kind, name }) => (kind === 'text' ? [name] : [])));
  return columns.flatMap((name, place) => (texts.has(name) ? [place] : []));
}
