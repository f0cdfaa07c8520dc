import type { RawRow } from '../records/row.ts';
import { type CellReader, cellReader, type MappedFile, textReader } from './map-cell.ts';
import { simpleParts } from './parse-source-map.ts';
import type { SourceRow, SourceRows } from './source-file.ts';
import type { MapCell, MapEntry } from './source-map.ts';

/** What one entry of a map makes of a row of the file. */
export interface MappedEntry {
  readonly table: string;
  /** What our columns get, or what is wrong. */
  readonly made: { readonly raw: RawRow } | { readonly problem: string };
}

/** What an entry that gives one row a file makes of a row; until it is taken, the next row is asked. */
export interface MappedOnce extends MappedEntry {
  readonly take: () => void;
}

/** A row of a mapped file: the rows it becomes, one for each entry of the map that has something to say. */
export interface MappedRow {
  readonly source: SourceRow;
  readonly rows: readonly { readonly table: string; readonly raw: RawRow }[];
  readonly once: readonly MappedOnce[];
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
  const each = readers.filter((entry) => !entry.once);
  const once = new Set(readers.filter((entry) => entry.once));
  for await (const row of source.rows) {
    if (row.problem !== undefined || (row.cells === undefined && row.around === undefined))
      yield { source: row, rows: [], once: [], tables: tablesOf(each), problem: row.problem ?? 'unreadable row' };
    else yield { ...mappedRow(readers, each, row), once: onceOf(once, row) };
    if (each.length === 0 && once.size === 0) return;
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

function tablesOf(entries: readonly Entry[]): string[] {
  return [...new Set(entries.map((entry) => entry.table))];
}

/** Whether a cell says something of its row, beside when it was. */
function isTold(cell: MapCell): boolean {
  return simpleParts(cell).some((part) => 'column' in part) && !('time' in cell && cell.time !== undefined);
}

function mappedRow(all: readonly Entry[], each: readonly Entry[], source: SourceRow): Omit<MappedRow, 'once'> {
  if (!all.some((entry) => entry.takes(source)))
    return { source, rows: [], tables: [all[0].table], problem: 'no entry of the map takes a row of this kind' };
  const takers = each.filter((entry) => entry.takes(source));
  const tables = tablesOf(takers);
  const rows: { table: string; raw: RawRow }[] = [];
  const silent: typeof rows = [];
  for (const entry of takers) {
    const made = madeOf(entry, source);
    if ('problem' in made) return { source, rows: [], tables, problem: made.problem };
    (made.says ? rows : silent).push({ table: entry.table, raw: made.raw });
  }
  // A row in which nothing was read is still a row: it keeps its time.
  return { source, tables, rows: rows.length > 0 ? rows : silent.slice(0, 1) };
}

/** What the entries that still want their one row of the file make of this one. */
function onceOf(once: Set<Entry>, source: SourceRow): MappedOnce[] {
  return [...once]
    .filter((entry) => entry.takes(source))
    .map((entry) => ({ table: entry.table, made: madeOf(entry, source), take: () => once.delete(entry) }));
}

function madeOf({ readers }: Entry, source: SourceRow): { raw: RawRow; says: boolean } | { problem: string } {
  const raw: Record<string, unknown> = {};
  let jobId = '';
  let says = false;
  for (const { name, told, read } of readers) {
    const result = read(source, jobId);
    if ('problem' in result) return { problem: `${name}: ${result.problem}` };
    raw[name] = result.value;
    if (name === 'job_id') jobId = textOf(result.value);
    if (told && result.value !== undefined) says = true;
  }
  return { raw, says };
}

function textOf(value: unknown): string {
  return typeof value === 'string' || typeof value === 'number' ? String(value) : '';
}
