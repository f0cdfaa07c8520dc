import { type DuckDBAppender, DuckDBDateValue } from '@duckdb/node-api';
import { type Column, columnsOf, type Table } from '../records/table.ts';
import { columnDefinitions, identifier } from './sql.ts';
import type { Store } from './store.ts';

/** Where a staged row came from. */
export interface RowOrigin {
  readonly fileNumber: number;
  readonly line: number;
  readonly raw: string;
}

/** The name of a table's staging table. */
export function stagingName(table: Table): string {
  return `staged_${table.name}`;
}

/** The name of the table that ranks staged rows with the same key. */
export function rankedName(table: Table): string {
  return `ranked_${table.name}`;
}

/** Appends typed rows of one table, with their origin, to a temporary table of this connection. */
export class RowStage {
  readonly table: Table;
  readonly #columns: Column[];
  readonly #appender: DuckDBAppender;
  #rows = 0;

  private constructor(table: Table, appender: DuckDBAppender) {
    this.table = table;
    this.#columns = columnsOf(table);
    this.#appender = appender;
  }

  static async begin(store: Store, table: Table): Promise<RowStage> {
    const name = identifier(stagingName(table));
    await store.run(
      `CREATE OR REPLACE TEMP TABLE ${name} (${columnDefinitions(table).replaceAll(' NOT NULL', '')},
         "_file" INTEGER, "_line" BIGINT, "_raw" VARCHAR)`,
    );
    return new RowStage(table, await store.connection.createAppender(stagingName(table), 'main', 'temp'));
  }

  get rows(): number {
    return this.#rows;
  }

  append(row: Record<string, unknown>, origin: RowOrigin): void {
    const appender = this.#appender;
    for (const column of this.#columns) appendCell(appender, column, row[column.name]);
    appender.appendInteger(origin.fileNumber);
    appender.appendBigInt(BigInt(origin.line));
    appender.appendVarchar(origin.raw);
    appender.endRow();
    this.#rows += 1;
  }

  end(): void {
    this.#appender.closeSync();
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
