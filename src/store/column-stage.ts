import {
  BLOB,
  DOUBLE,
  type DuckDBAppender,
  DuckDBBlobValue,
  type DuckDBConnection,
  DuckDBDataChunk,
  type DuckDBType,
  VARCHAR,
} from '@duckdb/node-api';
import { identifier, literal } from './quoted.ts';

/**
 * How a column is gathered. `number`: as a double, NaN where there is none; `word`: one of few texts; `text`: any text; `blob`: bytes.
 */
export type StagedKind = 'number' | 'word' | 'text' | 'blob';

export interface StagedColumn {
  readonly name: string;
  readonly kind: StagedKind;
  /** What the engine is to make of it. */
  readonly sqlType: string;
}

/** Rows that the engine takes at once. */
const chunkRows = 2048;
const types: Readonly<Record<StagedKind, DuckDBType>> = { number: DOUBLE, word: DOUBLE, text: VARCHAR, blob: BLOB };

/**
 * Gathers rows by columns and hands them to a temporary table of an engine thousands at a time. An appender asks the engine once a
 * value, which takes four times as long.
 */
export class ColumnStage {
  readonly #connection: DuckDBConnection;
  readonly #name: string;
  readonly #columns: readonly GatheredColumn[];
  /** Absent between the end of the rows and a new beginning. */
  #appender: DuckDBAppender | undefined;
  #rows = 0;

  private constructor(connection: DuckDBConnection, name: string, columns: GatheredColumn[], appender: DuckDBAppender) {
    this.#connection = connection;
    this.#name = name;
    this.#columns = columns;
    this.#appender = appender;
  }

  /** @param name of the temporary table, which is made anew */
  static async begin(
    connection: DuckDBConnection,
    name: string,
    columns: readonly StagedColumn[],
  ): Promise<ColumnStage> {
    const appender = await emptyTable(connection, name, columns);
    const gathered = columns.map((column) => new GatheredColumn(column));
    return new ColumnStage(connection, name, gathered, appender);
  }

  /** @param row values by column; undefined and null for none */
  append(row: Readonly<Record<string, unknown>>): void {
    const at = this.#rows;
    for (const column of this.#columns) column.set(at, row[column.name]);
    this.#rows = at + 1;
    if (this.#rows === chunkRows) this.#flush();
  }

  /** Hands over what is gathered. @returns a select of all rows, in the order in which they were appended */
  end(): string {
    this.#flush();
    this.#appender?.closeSync();
    this.#appender = undefined;
    return `SELECT ${this.#columns.map((column) => column.select).join(', ')} FROM temp.${identifier(this.#name)}`;
  }

  /** Forgets all rows, to begin anew. */
  async clear(): Promise<void> {
    this.#rows = 0;
    // One that is dropped writes what it holds when it is collected, into the table that has its name by then.
    this.#appender?.clear();
    this.#appender?.closeSync();
    for (const column of this.#columns) column.clear();
    this.#appender = await emptyTable(this.#connection, this.#name, this.#columns);
  }

  #flush(): void {
    if (this.#rows === 0) return;
    const chunk = DuckDBDataChunk.create(
      this.#columns.map(({ kind }) => types[kind]),
      this.#rows,
    );
    for (const [index, column] of this.#columns.entries()) column.fill(chunk, index, this.#rows);
    if (this.#appender === undefined) throw new TypeError(`${this.#name} takes no rows after its end`);
    this.#appender.appendDataChunk(chunk);
    this.#rows = 0;
  }
}

/** One column's values of the rows that are being gathered. */
class GatheredColumn implements StagedColumn {
  readonly name: string;
  readonly kind: StagedKind;
  readonly sqlType: string;
  readonly #words = new Map<string, number>();
  /** Of words their numbers, from 1, 0 for none. */
  readonly #numbers: Float64Array;
  readonly #others: (string | Uint8Array | null)[] = [];
  // A job's rows follow each other: the word is mostly that of the row before.
  #lastWord: unknown;
  #lastNumber = 0;

  constructor({ name, kind, sqlType }: StagedColumn) {
    this.name = name;
    this.kind = kind;
    this.sqlType = sqlType;
    this.#numbers = new Float64Array(kind === 'number' || kind === 'word' ? chunkRows : 0);
  }

  set(at: number, value: unknown): void {
    if (this.kind === 'number') {
      if (typeof value === 'number') this.#numbers[at] = value;
      else this.#numbers[at] = value === undefined || value === null ? Number.NaN : Number(value);
    } else if (this.kind === 'word') {
      if (value !== this.#lastWord) {
        this.#lastWord = value;
        this.#lastNumber = value === undefined || value === null ? 0 : this.#wordNumber(value as string);
      }
      this.#numbers[at] = this.#lastNumber;
    } else this.#others[at] = value === undefined || value === null ? null : (value as string | Uint8Array);
  }

  /** Forgets all words. */
  clear(): void {
    this.#words.clear();
    this.#lastWord = undefined;
    this.#lastNumber = 0;
  }

  fill(chunk: DuckDBDataChunk, index: number, rows: number): void {
    if (this.kind === 'number' || this.kind === 'word') {
      const vector = chunk.getColumnVector(index) as unknown as { items: Float64Array; flush(): void };
      vector.items.set(this.#numbers.subarray(0, rows));
      vector.flush();
      return;
    }
    const values = this.#others.slice(0, rows);
    const asBlob = (value: string | Uint8Array | null) =>
      value instanceof Uint8Array ? new DuckDBBlobValue(value) : value;
    chunk.setColumnValues(index, this.kind === 'blob' ? values.map(asBlob) : (values as (string | null)[]));
  }

  /** The expression that makes of what is staged what is meant. */
  get select(): string {
    const own = identifier(this.name);
    const meant = {
      number: `CASE WHEN isnan(${own}) THEN NULL ELSE ${own} END`,
      word: `([${[...this.#words.keys()].map(literal).join(', ')}]::VARCHAR[])[${own}::INTEGER]`,
      text: own,
      blob: own,
    }[this.kind];
    return `(${meant})::${this.sqlType} AS ${own}`;
  }

  #wordNumber(word: string): number {
    let number = this.#words.get(word);
    if (number === undefined) {
      number = this.#words.size + 1;
      this.#words.set(word, number);
    }
    return number;
  }
}

async function emptyTable(
  connection: DuckDBConnection,
  name: string,
  columns: readonly StagedColumn[],
): Promise<DuckDBAppender> {
  const definitions = columns.map((column) => `${identifier(column.name)} ${types[column.kind].toString()}`);
  await connection.run(`CREATE OR REPLACE TEMP TABLE ${identifier(name)} (${definitions.join(', ')})`);
  return connection.createAppender(name, 'main', 'temp');
}
