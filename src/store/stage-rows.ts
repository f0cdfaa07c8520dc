import type { Table } from '../records/table.ts';
import { RowAppender } from './row-appender.ts';
import { columnDefinitions, identifier } from './sql.ts';
import type { Store } from './store.ts';

/** Where a staged row came from. */
export interface RowOrigin {
  readonly fileNumber: number;
  /** Which row of the file, from 1: several may stand on one line. */
  readonly row: number;
  readonly line: number;
  readonly raw: string;
}

/** The name of a table's staging table. */
export function stagingName(table: Table): string {
  return `staged_${table.name}`;
}

/** Appends typed rows of one table, with their origin, to a temporary table of this connection. */
export class RowStage {
  readonly table: Table;
  readonly #appender: RowAppender;
  #rows = 0;
  #ended = false;

  private constructor(table: Table, appender: RowAppender) {
    this.table = table;
    this.#appender = appender;
  }

  static async begin(store: Store, table: Table): Promise<RowStage> {
    const name = stagingName(table);
    await store.run(
      `CREATE OR REPLACE TEMP TABLE ${identifier(name)} (${columnDefinitions(table).replaceAll(' NOT NULL', '')},
         "_file" INTEGER, "_row" BIGINT, "_line" BIGINT, "_raw" VARCHAR, "_nth" BIGINT DEFAULT 1, "_as_first" BOOLEAN DEFAULT true,
         "_known" BOOLEAN DEFAULT false)`,
    );
    return new RowStage(table, await RowAppender.begin(store, table, name));
  }

  /** How many rows were appended. */
  get rows(): number {
    return this.#rows;
  }

  append(row: Record<string, unknown>, origin: RowOrigin): void {
    this.#rows += 1;
    this.#appender.append(row, (appender) => {
      appender.appendInteger(origin.fileNumber);
      appender.appendBigInt(BigInt(origin.row));
      appender.appendBigInt(BigInt(origin.line));
      appender.appendVarchar(origin.raw);
      for (let own = 0; own < 3; own += 1) appender.appendDefault();
    });
  }

  /** Makes what was appended visible to statements. */
  flush(): void {
    this.#appender.flush();
  }

  end(): void {
    this.#ended = true;
    this.#appender.end();
  }

  /** Forgets the staged rows. After a failure of the engine there may be nothing left to forget. */
  async drop(store: Store): Promise<void> {
    try {
      if (!this.#ended) this.end();
      await store.run(`DROP TABLE IF EXISTS temp.${identifier(stagingName(this.table))}`);
    } catch {
      // The temporary tables go with the connection.
    }
  }
}
