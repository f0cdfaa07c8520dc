import type { RawRow } from '../records/row.ts';
import { type CellReader, cellReader, type MappedFile, textReader } from './map-cell.ts';
import { simpleParts } from './parse-source-map.ts';
import type { SourceRow, SourceRows } from './source-file.ts';
import type { MapCell, MapEntry } from './source-map.ts';

/** A row of a mapped file: the rows it becomes, one for each entry of the map that has something to say. */
export interface MappedRow {
  readonly source: SourceRow;
  readonly rows: readonly { readonly table: string; readonly raw: RawRow }[];
  /** The tables whose row is refused where there is a problem. */
  readonly tables: readonly string[];
  readonly problem?: string;
}

/** An entry of the map with the readers of its columns. */
interface Entry {
  readonly table: string;
  readonly once: boolean;
  readonly takes: (row: SourceRow) => boolean;
  readonly readers: readonly { readonly name: string; readonly told: boolean; readonly read: CellReader }[];
}

/** The columns that are read before all others, the last first. */
const readFirst = ['elapsed_s', 'job_id'];

/**
 * Applies the entries of a source map to the rows of one table of a file.
 *
 * @param entries the map's entries for this table, with their places in the map
 * @throws DryholdError `map-invalid` where the file lacks what the map names
 */
export async function* mapRows(
  file: MappedFile,
  entries: readonly { readonly entry: MapEntry; readonly index: number }[],
  source: SourceRows,
): AsyncGenerator<MappedRow> {
  const readers = entries.map(({ entry, index }) => entryReader(file, entry, `rows.${index}`));
  const once = new Set<Entry>();
  for await (const row of source.rows) {
    if (row.problem !== undefined || (row.cells === undefined && row.around === undefined))
      yield { source: row, rows: [], tables: tablesOf(readers, once), problem: row.problem ?? 'unreadable row' };
    else yield mappedRow(readers, once, row);
  }
}

function entryReader(file: MappedFile, { table, once, only, columns }: MapEntry, where: string): Entry {
  const readers = Object.entries(columns)
    // The times of a row count from the start of its job's log: the job is read first, then the time, so that a row
    // that is refused for another cell has its time all the same.
    .toSorted(([a], [b]) => readFirst.indexOf(b) - readFirst.indexOf(a))
    .map(([name, cell]) => ({
      name,
      told: isTold(cell),
      read: cellReader(file, table, name, cell, `${where}.columns.${name}`),
    }));
  const text = only && textReader(file, { column: only.column }, `${where}.only`);
  const takes =
    text === undefined ? () => true : (row: SourceRow) => only?.is.includes(String(text(row) ?? '')) ?? true;
  return { table, once, takes, readers };
}

/** The tables of entries, without those that have had their one row of the file. */
function tablesOf(entries: readonly Entry[], had: ReadonlySet<Entry>): string[] {
  return [...new Set(entries.filter((entry) => !had.has(entry)).map((entry) => entry.table))];
}

/** Whether a cell says something of its row, beside when it was. */
function isTold(cell: MapCell): boolean {
  return simpleParts(cell).some((part) => 'column' in part) && !('time' in cell && cell.time !== undefined);
}

function mappedRow(entries: readonly Entry[], once: Set<Entry>, source: SourceRow): MappedRow {
  const rows: { table: string; raw: Record<string, unknown> }[] = [];
  const silent: typeof rows = [];
  const takers = entries.filter((entry) => entry.takes(source));
  const tables = tablesOf(takers, once);
  if (takers.length === 0)
    return { source, rows: [], tables: [entries[0].table], problem: 'no entry of the map takes a row of this kind' };
  for (const entry of takers) {
    if (once.has(entry)) continue;
    const raw: Record<string, unknown> = {};
    let jobId = '';
    let says = entry.once;
    for (const { name, told, read } of entry.readers) {
      const result = read(source, jobId);
      if ('problem' in result) return { source, rows: [], tables, problem: `${name}: ${result.problem}` };
      raw[name] = result.value;
      if (name === 'job_id') jobId = textOf(result.value);
      if (told && result.value !== undefined) says = true;
    }
    if (entry.once) once.add(entry);
    (says ? rows : silent).push({ table: entry.table, raw });
  }
  // A row in which nothing was read is still a row: it keeps its time.
  return { source, tables, rows: rows.length > 0 ? rows : silent.slice(0, 1) };
}

function textOf(value: unknown): string {
  return typeof value === 'string' || typeof value === 'number' ? String(value) : '';
}
