import type { SourceRow, SourceRows } from '../sources/source-file.ts';
import { cellsText, noFileOfKind, unbroken } from './unbroken-rows.ts';
import { identifier, parquetFiles } from './sql.ts';
import type { Store } from './store.ts';

/**
 * The rows of a Parquet file; `line` is the row number.
 *
 * @throws DryholdError `file-unreadable`
 */
export async function parquetRows(store: Store, path: string): Promise<SourceRows> {
  const described = await describe(store, path);
  const columns = described.map((column) => column.column_name);
  return { columns, rows: unbroken(path, parquetRowsOf(store, path, described.map(asTextColumn).join(', '))) };
}

/** The column names of a Parquet file with the types that the engine gives them. */
export async function parquetColumns(store: Store, path: string): Promise<Map<string, string>> {
  return new Map((await describe(store, path)).map((column) => [column.column_name, column.column_type]));
}

async function describe(store: Store, path: string): Promise<{ column_name: string; column_type: string }[]> {
  try {
    return await store.rows(`SELECT column_name, column_type FROM (DESCRIBE SELECT * FROM ${parquetFiles(path)})`);
  } catch (error) {
    throw noFileOfKind(path, 'Parquet', error);
  }
}

async function* parquetRowsOf(store: Store, path: string, select: string): AsyncGenerator<SourceRow> {
  let line = 0;
  for await (const rows of store.stream(`SELECT ${select} FROM ${parquetFiles(path)}`)) {
    for (const cells of rows) {
      line += 1;
      yield { line, cells, raw: () => cellsText(cells) };
    }
  }
}

function asTextColumn({ column_name, column_type }: { column_name: string; column_type: string }): string {
  const name = identifier(column_name);
  if (column_type === 'DATE') return `strftime(${name}, '%Y-%m-%d')`;
  if (column_type === 'TIMESTAMP WITH TIME ZONE')
    return `replace(strftime(${name}, '%Y-%m-%dT%H:%M:%S.%gZ'), '.000Z', 'Z')`;
  // Without a zone it is no point in time, and is refused for it.
  if (column_type.startsWith('TIMESTAMP'))
    return `regexp_replace(strftime(${name}, '%Y-%m-%dT%H:%M:%S.%g'), '\\.000$', '')`;
  if (column_type === 'TIME') return `${name}::VARCHAR`;
  return name;
}
