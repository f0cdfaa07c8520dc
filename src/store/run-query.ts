import { DuckDBTypeId, StatementType } from '@duckdb/node-api';
import { DryholdError } from '../errors.ts';
import { literal } from './sql.ts';
import type { PlainRow, Store } from './store.ts';

/** A query's columns and rows. */
export interface QueryResult {
  readonly columns: string[];
  readonly rows: PlainRow[];
}

/**
 * Runs one reading statement of a person on a store that was opened to look. It sees the store's own files and no others.
 *
 * @throws DryholdError `query-refused`
 */
export async function runQuery(store: Store, sql: string): Promise<QueryResult> {
  const [{ locked }] = await store.rows<{ locked: boolean }>("SELECT current_setting('lock_configuration') AS locked");
  if (!locked) {
    await store.run(
      `SET allowed_directories = [${literal(store.segmentsFolder)}]; SET enable_external_access = false; SET lock_configuration = true`,
    );
  }
  try {
    const statements = await store.connection.extractStatements(sql);
    if (statements.count !== 1)
      throw new DryholdError('query-refused', { problem: `one statement is wanted, found ${statements.count}` });
    const prepared = await statements.prepare(0);
    if (prepared.statementType !== StatementType.SELECT && prepared.statementType !== StatementType.EXPLAIN) {
      throw new DryholdError('query-refused', { problem: 'only statements that read are allowed, such as SELECT' });
    }
    const reader = await prepared.runAndReadAll();
    // BIGINT, such as every count, comes as text from the engine; a number is what a reader of JSON expects.
    const counts = reader.columnTypes().map((type) => type.typeId === DuckDBTypeId.BIGINT);
    const columns = reader.columnNames();
    const rows = reader
      .getRowsJson()
      .map((row) =>
        Object.fromEntries(
          columns.map((name, index) => [name, counts[index] && row[index] !== null ? Number(row[index]) : row[index]]),
        ),
      );
    return { columns, rows };
  } catch (error) {
    if (error instanceof DryholdError) throw error;
    throw new DryholdError('query-refused', { problem: (error as Error).message.split('\n')[0] }, error);
  }
}
