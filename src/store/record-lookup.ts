import { columnsOf, type Table } from '../records/table.ts';
import { identifier } from './sql.ts';
import type { PlainRow, Store } from './store.ts';

/**
 * The rows of a table for some jobs, grouped by a column; absent values are left out of the rows, as in the records.
 *
 * @param wanted a table or subquery with a column `job_id`; absent: all rows
 */
export async function recordsBy<Row>(
  store: Store,
  table: Table,
  by: string,
  wanted?: string,
): Promise<Map<string, Row[]>> {
  const filter = wanted === undefined ? '' : ` WHERE job_id IN (SELECT job_id FROM ${wanted})`;
  const order = table.key.map((key) => identifier(key)).join(', ');
  const names = columnsOf(table).map((column) => identifier(column.name));
  const rows = await store.rows(`SELECT ${names.join(', ')} FROM ${identifier(table.name)}${filter} ORDER BY ${order}`);
  const groups = new Map<string, Row[]>();
  for (const row of rows) {
    const key = String(row[by]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [withoutNulls(row) as Row]);
    else group.push(withoutNulls(row) as Row);
  }
  return groups;
}

/** A row without the fields that are not known. */
export function withoutNulls(row: PlainRow): PlainRow {
  return Object.fromEntries(Object.entries(row).filter(([, value]) => value !== null));
}
