import { type DuckDBAppender, DuckDBDateValue } from '@duckdb/node-api';
import { type Column, columnsOf, type Table } from '../records/table.ts';
import type { Store } from './store.ts';

/** Appends typed rows to a table of the catalogue, or to a temporary one that begins with the same columns. */
export class RowAppender {
  readonly #columns: Column[];
  readonly #appender: DuckDBAppender;

  private constructor(table: Table, appender: DuckDBAppender) {
    this.#columns = columnsOf(table);
    this.#appender = appender;
  }

  /** @param name the temporary table; absent: the table of the catalogue itself */
  static async begin(store: Store, table: Table, name?: string): Promise<RowAppender> {
    const appender =
      name === undefined
        ? await store.connection.createAppender(table.name, 'main')
        : await store.connection.createAppender(name, 'main', 'temp');
    return new RowAppender(table, appender);
  }

  /** @param further what the columns after the table's own hold */
  append(row: Record<string, unknown>, further?: (appender: DuckDBAppender) => void): void {
    const appender = this.#appender;
    for (const column of this.#columns) appendCell(appender, column, row[column.name]);
    further?.(appender);
    appender.endRow();
  }

  /** Makes what was appended visible to statements. */
  flush(): void {
    this.#appender.flushSync();
  }

  end(): void {
    this.#appender.closeSync();
  }

  /**
   * Forgets what was appended and not yet written. Without that the engine writes it when the appender is collected as
   * garbage, which may be after its transaction was rolled back.
   */
  abandon(): void {
    this.#appender.clear();
  }
}

function appendCell(appender: DuckDBAppender, column: Column, value: unknown): void {
  if (value === undefined || value === null) appender.appendNull();
  else if (column.kind === 'number')
    appender.appendDouble(value === 'over' ? Number.POSITIVE_INFINITY : (value as number));
  else if (column.kind === 'integer') appender.appendBigInt(BigInt(value as number));
  else if (column.kind === 'flag') appender.appendBoolean(value as boolean);
  else if (column.kind === 'date') appender.appendDate(dateValue(value as string));
  else appender.appendVarchar(value as string);
}

function dateValue(day: string): DuckDBDateValue {
  return new DuckDBDateValue(Math.round(Date.parse(`${day}T00:00:00Z`) / 86_400_000));
}
