import type { Table } from '../records/table.ts';
import { columnList, identifier } from './sql.ts';
import { RowStage, stagingName } from './stage-rows.ts';
import type { Store } from './store.ts';

/**
 * Replaces rows of a catalogue table: those whose key columns match a new row go, the new ones come, in the caller's
 * transaction.
 *
 * @param replaceBy the columns that say which old rows a new row replaces
 */
export class TableWriter {
  readonly #store: Store;
  readonly #table: Table;
  readonly #stage: RowStage;

  private constructor(store: Store, table: Table, stage: RowStage) {
    this.#store = store;
    this.#table = table;
    this.#stage = stage;
  }

  static async begin(store: Store, table: Table): Promise<TableWriter> {
    return new TableWriter(store, table, await RowStage.begin(store, table));
  }

  append(row: Record<string, unknown>): void {
    this.#stage.append(row, { fileNumber: 0, line: 0, raw: '' });
  }

  async replace(replaceBy: readonly string[]): Promise<void> {
    this.#stage.end();
    const name = identifier(this.#table.name);
    const staged = `temp.${stagingName(this.#table)}`;
    const match = replaceBy.map((column) => `old.${identifier(column)} = s.${identifier(column)}`).join(' AND ');
    await this.#store.run(`DELETE FROM ${name} old USING ${staged} s WHERE ${match}`);
    await this.#store.run(`INSERT INTO ${name} SELECT ${columnList(this.#table)} FROM ${staged}`);
  }
}
