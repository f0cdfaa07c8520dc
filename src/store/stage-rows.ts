import type { Table } from '../records/table.ts';
import { RowAppender } from './row-appender.ts';
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
  readonly #appender: RowAppender;
  #rows = 0;

  private constructor(table: Table, appender: RowAppender) {
    this.table = table;
    this.#appender = appender;
  }

  static async begin(store: Store, table: Table): Promise<RowStage> {
    const name = stagingName(table);
    await store.run(
      `CREATE OR REPLACE TEMP TABLE ${identifier(name)} (${columnDefinitions(table).replaceAll(' NOT NULL', '')},
         "_file" INTEGER, "_line" BIGINT, "_raw" VARCHAR)`,
    );
    return new RowStage(table, await RowAppender.begin(store, table, name));
  }

  get rows(): number {
    return this.#rows;
  }

  append(row: Record<string, unknown>, origin: RowOrigin): void {
    this.#appender.append(row, (appender) => {
      appender.appendInteger(origin.fileNumber);
      appender.appendBigInt(BigInt(origin.line));
      appender.appendVarchar(origin.raw);
    });
    this.#rows += 1;
  }

  end(): void {
    this.#appender.end();
  }
}
