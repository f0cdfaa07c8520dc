import { readFileSync } from 'node:fs';
import { type Column, columnsOf, type Table } from '../records/table.ts';
import { identifier } from './quoted.ts';

export { identifier, literal, parquetFiles, plainPath } from './quoted.ts';

const cache = new Map<string, string>();

/** The statement in `queries/<name>.sql`. */
export function query(name: string): string {
  let statement = cache.get(name);
  if (statement === undefined) {
    statement = readFileSync(new URL(`queries/${name}.sql`, import.meta.url), 'utf8');
    cache.set(name, statement);
  }
  return statement;
}

/**
 * The column type that keeps a kind of value. Instants stay ISO 8601 text: DuckDB's time stamps with zone forget the
 * offset, and the shop's own clock tells which day and month a job belongs to.
 */
export function sqlType(column: Column): string {
  switch (column.kind) {
    case 'number':
      return 'DOUBLE';
    case 'integer':
      return 'BIGINT';
    case 'date':
      return 'DATE';
    case 'flag':
      return 'BOOLEAN';
    default:
      return 'VARCHAR';
  }
}

/** The columns of a table as a definition list. */
export function columnDefinitions(table: Table): string {
  return columnsOf(table)
    .map((column) => `${identifier(column.name)} ${sqlType(column)}${column.required ? ' NOT NULL' : ''}`)
    .join(', ');
}

/** The column names of a table as a select list. */
export function columnList(table: Table, of = ''): string {
  return columnsOf(table)
    .map((column) => `${of}${identifier(column.name)}`)
    .join(', ');
}

/**
 * An aggregate that differs where rows do, in whatever order they stand. What the engine's hash makes of several values is nearly an
 * exclusive or: over rows of which a column is the same all along it would be the same for any other such value. Hashed once more
 * and summed up it is not.
 */
export function rowsDigest(cells: readonly string[]): string {
  return `sum(hash(hash(${cells.join(', ')}))::HUGEINT)`;
}
