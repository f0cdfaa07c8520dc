import { columnsOf, type Table } from '../records/table.ts';
import { identifier } from './sql.ts';
import { type PlainRow, plainValue, type Store } from './store.ts';

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
  const reader = await store.connection.runAndReadAll(
    `SELECT ${names.join(', ')} FROM ${identifier(table.name)}${filter} ORDER BY ${order}`,
  );
  // Column by column: row objects of DuckDB with a field for every empty column take several times as long.
  const rows: PlainRow[] = Array.from({ length: reader.currentRowCount }, () => ({}));
  const columns = reader.getColumnsJS();
  for (const [index, column] of columnsOf(table).entries()) {
    const values = columns[index];
    for (let row = 0; row < rows.length; row += 1) {
      const value = plainValue(values[row]);
      if (value !== null) rows[row][column.name] = value;
    }
  }
  const groups = new Map<string, Row[]>();
  for (const row of rows) {
    const key = String(row[by]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row as Row]);
    else group.push(row as Row);
  }
  return groups;
}
