import type { FileKind } from '../sources/source-file.ts';
import { type Column, columnsOf } from '../records/table.ts';
import { readings } from '../records/tables/readings.ts';
import { identifier, literal, sqlType } from './sql.ts';

const readingColumns = columnsOf(readings);

/** Which columns of a file of readings are taken, and which it has that the table does not. */
export interface ReadingColumns {
  readonly taken: readonly Column[];
  readonly unknown: readonly string[];
  readonly missing: readonly string[];
}

/** Sorts the column names of a file into those of the table, those it does not have, and those required that are missing. */
export function readingColumnsOf(names: readonly string[]): ReadingColumns {
  return {
    taken: readingColumns.filter((column) => names.includes(column.name)),
    unknown: names.filter((name) => !readingColumns.some((column) => column.name === name)),
    missing: readingColumns
      .filter((column) => column.required && !names.includes(column.name))
      .map((column) => column.name),
  };
}

/**
 * A select statement over a file of readings that gives its columns typed and in file order, and raises an error at the
 * first value that the table does not allow. It says nothing about where: the row-by-row reader finds that.
 *
 * @param names all column names of the file, in file order
 */
export function checkedReadings(kind: FileKind['id'], relation: string, columns: readonly Column[]): string {
  const fromText = kind === 'csv' || kind === 'ndjson';
  const typed = columns.map((column) => `${typedCell(column, fromText)} AS ${identifier(column.name)}`);
  const wrong = columns.map((column) => wrongCell(column)).filter((condition) => condition !== '');
  const rest = columns.filter((column) => column.name !== 'job_id').map((column) => identifier(column.name));
  return `SELECT CASE WHEN ${wrong.join(' OR ')} THEN error('wrong value') ELSE job_id END AS job_id, ${rest.join(', ')}
    FROM (SELECT ${typed.join(', ')} FROM ${relation})`;
}

/** The relation of a text file in which every cell is text; Parquet keeps its own types. */
export function fileRelation(kind: FileKind['id'], path: string, names: readonly string[]): string {
  const texts = `{${names.map((name) => `${literal(name)}: 'VARCHAR'`).join(', ')}}`;
  switch (kind) {
    case 'csv':
      return `read_csv(${literal(path)}, auto_detect = false, header = true, delim = ',', quote = '"', escape = '"',
        strict_mode = true, nullstr = '', columns = ${texts})`;
    case 'ndjson':
      return `read_json(${literal(path)}, format = 'newline_delimited', columns = ${texts})`;
    default:
      return `read_parquet(${literal(path)})`;
  }
}

function typedCell(column: Column, fromText: boolean): string {
  const name = identifier(column.name);
  if (column.kind === 'number' && column.over && fromText) {
    return `CASE WHEN trim(${name}) = 'over' THEN 'infinity'::DOUBLE WHEN isinf(CAST(${name} AS DOUBLE)) THEN -1 ELSE CAST(${name} AS DOUBLE) END`;
  }
  if (!fromText) return `CAST(${name} AS ${sqlType(column)})`;
  return column.kind === 'number' ? `CAST(${name} AS DOUBLE)` : `nullif(trim(${name}), '')`;
}

function wrongCell(column: Column): string {
  const name = identifier(column.name);
  const conditions: string[] = [];
  if (column.required) conditions.push(`${name} IS NULL`);
  if (column.kind === 'number') {
    const over = column.over ? ` OR ${name} = 'infinity'` : '';
    conditions.push(`NOT (${name} BETWEEN ${column.min} AND ${column.max}${over})`);
  } else if (column.words !== undefined) {
    conditions.push(`NOT (${name} IN (${column.words.map(literal).join(', ')}))`);
  } else {
    conditions.push(`length(${name}) > 500`);
  }
  return conditions.map((condition) => `coalesce(${condition}, false)`).join(' OR ');
}
