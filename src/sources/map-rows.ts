import { basename, extname } from 'node:path';
import { DryholdError } from '../errors.ts';
import { parseCell } from '../records/cell.ts';
import { columnMeta } from '../records/column.ts';
import type { RawRow } from '../records/row.ts';
import { tableNamed } from '../records/tables.ts';
import { toInterchange, type UnitName } from '../units/unit.ts';
import type { SourceRow, SourceRows } from './source-file.ts';
import type { MapCell, SourceMap } from './source-map.ts';

/** A row of a mapped file: the rows it becomes, one for each entry of the map that has something to say. */
export interface MappedRow {
  readonly source: SourceRow;
  readonly rows: readonly { readonly table: string; readonly raw: RawRow }[];
  readonly problem?: string;
}

type CellReader = (cells: readonly unknown[], line: number) => { value: unknown } | { problem: string };

/**
 * Applies a source map to a file's rows.
 *
 * @throws DryholdError `map-invalid` where the map names a column that the file does not have
 */
export async function* mapRows(
  map: SourceMap,
  mapPath: string,
  path: string,
  source: SourceRows,
): AsyncGenerator<MappedRow> {
  const entries = map.rows.map((entry, index) => ({
    table: entry.table,
    readers: Object.entries(entry.columns).map(([name, cell]) => ({
      name,
      told: 'column' in cell && cell.time === undefined,
      read: cellReader(
        { map, mapPath, path, columns: source.columns, where: `rows.${index}.columns.${name}` },
        entry.table,
        name,
        cell,
      ),
    })),
  }));
  for await (const row of source.rows) {
    if (row.problem !== undefined || row.cells === undefined) yield { source: row, rows: [], problem: row.problem };
    else yield mappedRow(entries, row, row.cells);
  }
}

interface Entry {
  table: string;
  readers: { name: string; told: boolean; read: CellReader }[];
}

function mappedRow(entries: Entry[], source: SourceRow, cells: readonly unknown[]): MappedRow {
  const rows: { table: string; raw: Record<string, unknown> }[] = [];
  const all: typeof rows = [];
  for (const { table, readers } of entries) {
    const raw: Record<string, unknown> = {};
    let says = false;
    for (const { name, told, read } of readers) {
      const result = read(cells, source.line);
      if ('problem' in result) return { source, rows: [], problem: `${name}: ${result.problem}` };
      raw[name] = result.value;
      if (told && result.value !== undefined) says = true;
    }
    all.push({ table, raw });
    if (says) rows.push({ table, raw });
  }
  // A row in which nothing was read is still a row: it keeps its time.
  return { source, rows: rows.length > 0 ? rows : all.slice(0, 1) };
}

interface Context {
  map: SourceMap;
  mapPath: string;
  path: string;
  columns: readonly string[];
  where: string;
}

function cellReader(context: Context, table: string, name: string, cell: MapCell): CellReader {
  if ('constant' in cell) return () => ({ value: cell.constant });
  if ('file_name' in cell) {
    const stem = basename(context.path, extname(context.path));
    return () => ({ value: stem });
  }
  const position = columnPosition(context, cell.column);
  const nullWords = new Set(['', ...context.map.null_words]);
  const textAt = (cells: readonly unknown[]) => {
    const value = cells[position];
    const text =
      typeof value === 'string' ? value.trim() : value === undefined || value === null ? '' : JSON.stringify(value);
    return nullWords.has(text) ? undefined : text;
  };
  if (cell.time === 'clock') return clockReader(textAt);
  const meta = columnMeta(tableNamed(table)?.schema.shape[name] as never);
  const overWords = new Set(meta.over ? context.map.over_words : []);
  const unit = cell.unit as UnitName | undefined;
  return (cells) => {
    const text = textAt(cells);
    if (text === undefined) return { value: undefined };
    if (overWords.has(text)) return { value: 'over' };
    if (meta.kind !== 'number') return { value: text };
    const parsed = parseCell('number', text);
    if ('problem' in parsed) return parsed;
    const value = parsed.value as number;
    if (cell.over_from !== undefined && value >= cell.over_from) return { value: 'over' };
    return { value: unit === undefined ? value : toInterchange(value, unit) };
  };
}

function columnPosition(context: Context, column: string | number): number {
  const position = typeof column === 'number' ? column - 1 : context.columns.indexOf(column);
  if (position >= 0 && position < context.columns.length) return position;
  throw new DryholdError('map-invalid', {
    path: context.mapPath,
    where: context.where,
    problem: `${context.path} has no column ${JSON.stringify(column)}; it has ${context.columns.join(', ')}`,
  });
}

const dayS = 86_400;

/** Seconds since the first row, from times of day; a step back by more than half a day is midnight. */
function clockReader(textAt: (cells: readonly unknown[]) => string | undefined): CellReader {
  let first: number | undefined;
  let previous = 0;
  let days = 0;
  return (cells) => {
    const text = textAt(cells);
    const match = /^([01]?\d|2[0-3]):([0-5]\d):([0-5]\d(?:\.\d+)?)$/.exec(text ?? '');
    if (match === null) return { problem: `not a time of day hh:mm:ss: ${JSON.stringify(text ?? '')}` };
    const secondOfDay = Number(match[1]) * 3600 + Number(match[2]) * 60 + Number(match[3]);
    if (first !== undefined && secondOfDay < previous - dayS / 2) days += 1;
    first ??= secondOfDay;
    previous = secondOfDay;
    return { value: days * dayS + secondOfDay - first };
  };
}
