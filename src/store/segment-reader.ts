import { existsSync } from 'node:fs';
import {
  BOOLEAN,
  DOUBLE,
  type DuckDBConnection,
  type DuckDBDataChunk,
  DuckDBInstance,
  DuckDBScalarFunction,
} from '@duckdb/node-api';
import { DryholdError } from '../errors.ts';
import { ColumnBuffers } from './column-buffers.ts';
import { placeAmong } from './place-among.ts';
import { identifier, parquetFiles } from './quoted.ts';

/** Neighbouring rows of a segment; plain data, so that another thread can read them. */
export interface SegmentRows {
  readonly path: string;
  /** The columns that the segment has. */
  readonly columns: readonly string[];
  readonly firstRow: number;
  readonly rows: number;
}

/** Columns by name; those that the segment lacks are absent. */
export type SegmentColumns = Readonly<Partial<Record<string, Float64Array>>>;

/**
 * Reads columns of neighbouring rows of a segment, in any thread, one slice after the other, by an engine of its own:
 * without a catalogue, on one core, with little memory.
 *
 * The engine hands each chunk to a function of ours, which copies the numbers where they belong. A result would be made
 * whole first, and its memory let go only when its small JavaScript object is collected, which can take a gigabyte.
 */
export class SegmentReader {
  readonly #engine: DuckDBInstance;
  readonly #connection: DuckDBConnection;
  /** Takes the chunks of the query under way. */
  #take: (chunk: DuckDBDataChunk) => void = () => undefined;

  private constructor(engine: DuckDBInstance, connection: DuckDBConnection) {
    this.#engine = engine;
    this.#connection = connection;
    const take = DuckDBScalarFunction.create({
      name: 'take',
      varArgsType: DOUBLE,
      returnType: BOOLEAN,
      volatile: true,
      mainFunction: (_, chunk, taken) => {
        this.#take(chunk);
        taken.flush();
      },
    });
    connection.registerScalarFunction(take);
  }

  static async begin(): Promise<SegmentReader> {
    const engine = await DuckDBInstance.create(':memory:', {
      threads: '1',
      // A part of a few thousand jobs takes half of it: two hundred columns of facts are fifty megabytes, however few rows they have.
      memory_limit: '256MB',
      temp_directory: '',
      autoinstall_known_extensions: 'false',
    });
    const connection = await engine.connect();
    // Every query names the same files again; what they hold is read once, so that to keep it would be for nothing.
    await connection.run('SET parquet_metadata_cache = true; SET enable_external_file_cache = false');
    return new SegmentReader(engine, connection);
  }

  /**
   * Reads columns in one go.
   *
   * @param numbers columns of numbers; NaN where there is none
   * @param texts columns of texts, and the words that they may hold; read as the place of each row's word, from 1, 0 for none
   * @param buffers memory to read into; what was read into it before is gone then
   * @throws DryholdError `file-unreadable`
   */
  async columns(
    rows: SegmentRows,
    numbers: readonly string[],
    texts: Readonly<Record<string, readonly string[]>> = {},
    buffers = new ColumnBuffers(),
  ): Promise<SegmentColumns> {
    const select = Object.entries({
      ...Object.fromEntries(numbers.map((name) => [name, `coalesce(${identifier(name)}, 'nan'::DOUBLE)`])),
      ...Object.fromEntries(Object.entries(texts).map(([name, words]) => [name, placeAmong(identifier(name), words)])),
    }).filter(([name]) => rows.columns.includes(name));
    const read = select.map(([name]) => [name, buffers.take(name, rows.rows)] as const);
    // On one core the engine hands over a file's rows in their order.
    let filled = 0;
    this.#take = (chunk) => {
      for (const [index, [, values]] of read.entries()) values.set(items(chunk, index), filled);
      filled += chunk.rowCount;
    };
    const list = select.map(([, sql]) => sql).join(', ');
    await this.#query(rows, `count(take(${list}))`);
    if (filled !== rows.rows) {
      const problem = `holds ${filled} rows from row ${rows.firstRow} where the store knows of ${rows.rows}`;
      throw new DryholdError('file-unreadable', { path: rows.path, problem });
    }
    return Object.fromEntries(read);
  }

  /**
   * The different texts that a column holds in some rows, sorted.
   *
   * @throws DryholdError `file-unreadable`
   */
  async words(rows: SegmentRows, column: string): Promise<string[]> {
    if (!rows.columns.includes(column)) return [];
    const found = await this.#query(rows, `DISTINCT ${identifier(column)}`);
    return found.filter((word) => typeof word === 'string').sort();
  }

  /** Another connection to its engine, which goes with it. */
  connect(): Promise<DuckDBConnection> {
    return this.#engine.connect();
  }

  /** Lets go of the engine; no query may be under way. */
  close(): void {
    this.#connection.closeSync();
    this.#engine.closeSync();
  }

  /** @returns the first column */
  async #query({ path, firstRow, rows }: SegmentRows, select: string): Promise<unknown[]> {
    try {
      const result = await this.#connection.runAndReadAll(
        `SELECT ${select} FROM ${parquetFiles(path, 'file_row_number = true')}
         WHERE file_row_number >= ${firstRow} AND file_row_number < ${firstRow + rows}`,
      );
      return result.getColumns()[0] ?? [];
    } catch (error) {
      const problem = existsSync(path) ? (error as Error).message.split('\n')[0] : 'it is gone, and the store needs it';
      throw new DryholdError('file-unreadable', { path, problem }, error);
    }
  }
}

/** A column of a chunk. */
function items(chunk: DuckDBDataChunk, column: number): Float64Array {
  return (chunk.getColumnVector(column) as unknown as { items: Float64Array }).items;
}
