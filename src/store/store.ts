import { existsSync, mkdirSync, readdirSync, realpathSync, rmdirSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { type DuckDBConnection, DuckDBInstance, type DuckDBResult, type DuckDBValue, type JS } from '@duckdb/node-api';
import { DryholdError, machineProblem } from '../errors.ts';
import { catalogueName } from './catalogue-path.ts';
import { isAfterBreakdown } from './engine-breakdown.ts';
import { migrate, newestVersion, storeVersion } from './migrations.ts';
import { isUnfinishedCatalogue, makeCatalogue } from './new-catalogue.ts';
import { openingError } from './opening-error.ts';
import { refreshReadingsView } from './readings-view.ts';
import { isSpillName, readersSpillName, spillName } from './spill-folder.ts';
import { writingError } from './writing-error.ts';

/** Whether the store is opened to change it (one holder at a time) or to look. */
export type StoreMode = 'read' | 'write';

/** Rows as plain objects, BIGINT as number. */
export type PlainRow = Record<string, unknown>;

const segmentsName = 'readings';
const connectionSettings =
  "SET TimeZone = 'UTC'; SET enable_progress_bar = true; SET enable_progress_bar_print = false";

/**
 * What the engine may hold before it writes to disk. Where very many rows are read one by one, or other threads judge, less of it
 * does as well, and leaves room for what that takes.
 */
const engineMemory = { usual: '768MB', spare: '256MB' } as const;

// DuckDB does not refuse a second instance on the same file within one process and then loses committed rows.
const openHere = new Set<string>();

/**
 * A store: a folder with one DuckDB database as catalogue and the readings as Parquet segments beside it.
 *
 * @example
 * const store = await Store.open('dryhold-store', 'write');
 * try { … } finally { await store.close(); }
 */
export class Store {
  readonly folder: string;
  readonly mode: StoreMode;
  readonly connection: DuckDBConnection;
  readonly #instance: DuckDBInstance;
  readonly #lockKey: string;
  #closed = false;

  private constructor(
    folder: string,
    mode: StoreMode,
    instance: DuckDBInstance,
    connection: DuckDBConnection,
    lockKey: string,
  ) {
    this.folder = folder;
    this.mode = mode;
    this.connection = connection;
    this.#instance = instance;
    this.#lockKey = lockKey;
  }

  /**
   * Opens the store in `folder`; `write` makes it where there is none and takes an older one forward.
   *
   * @throws DryholdError `store-missing`, `store-busy`, `store-newer`, `store-unreadable`
   */
  static async open(folder: string, mode: StoreMode): Promise<Store> {
    const path = join(folder, catalogueName);
    // The engine takes it for the end of a web address, and would keep its log of changes in a folder of another name.
    if (path.includes('?'))
      throw new DryholdError('store-unreadable', { path: folder, problem: 'a store cannot lie where a name has a ?' });
    if (mode === 'read' && !existsSync(path)) throw new DryholdError('store-missing', { path: folder });
    if (mode === 'write') await makeFolders(folder);
    const store = await openAt(folder, mode);
    try {
      if (mode === 'write') {
        await migrate(store.connection);
        await store.#sweep();
      } else if ((await storeVersion(store.connection)) < newestVersion) {
        await store.close();
        await (await Store.open(folder, 'write')).close();
        return await Store.open(folder, mode);
      }
      await store.#viewReadings();
      return store;
    } catch (error) {
      await store.close();
      throw error;
    }
  }

  /** @internal */
  static make(...parts: [string, StoreMode, DuckDBInstance, DuckDBConnection, string]): Store {
    return new Store(...parts);
  }

  /** The folder of the segments. */
  get segmentsFolder(): string {
    return resolve(this.folder, segmentsName);
  }

  /**
   * Runs a statement for its effect.
   *
   * @throws DryholdError `store-unwritable`
   */
  async run(sql: string, values?: DuckDBValue[]): Promise<void> {
    try {
      await this.connection.run(sql, values);
    } catch (error) {
      throw writingError(this.folder, error);
    }
  }

  /** Runs a statement and reads all rows; for small results only. */
  async rows<Row extends PlainRow = PlainRow>(sql: string, values?: DuckDBValue[]): Promise<Row[]> {
    const reader = await this.connection.runAndReadAll(sql, values);
    return reader.getRowObjectsJS().map((row) => plain(row as PlainRow) as Row);
  }

  /**
   * Streams the rows of a select, some at a time, while other statements may run. On a connection of its own: a statement
   * ends the result that is open on its connection, and the rows not yet read are missing without a word.
   */
  async *stream(select: string): AsyncGenerator<JS[][]> {
    const connection = await this.#instance.connect();
    try {
      await connection.run(connectionSettings);
      const result = await connection.stream(select);
      try {
        yield* result.yieldRowsJs();
      } finally {
        // A result that is left before its end keeps the engine, and so the file, after all is closed.
        connection.interrupt();
        await readToEnd(result).catch(() => undefined);
      }
    } finally {
      connection.closeSync();
    }
  }

  /** How much of the statement under way is done [ratio]; 0 where the engine cannot tell. */
  get statementDone(): number {
    const { percentage } = this.connection.progress;
    return percentage > 0 && percentage <= 100 ? percentage / 100 : 0;
  }

  /** Sets what the engine may hold in memory from now on; one that broke down holds nothing. */
  async holdInMemory(how: keyof typeof engineMemory): Promise<void> {
    try {
      await this.run(`SET memory_limit = '${engineMemory[how]}'`);
    } catch (error) {
      if (!isAfterBreakdown(error)) throw error;
    }
  }

  /** Makes a temporary table of job ids. */
  async fill(name: string, jobIds: Iterable<string>): Promise<void> {
    await this.fillRows(
      name,
      { job_id: 'VARCHAR' },
      Array.from(jobIds, (jobId) => [jobId]),
    );
  }

  /** Makes a temporary table of a few columns: thousands of rows in one go cost what a few statements do. */
  async fillRows(
    name: string,
    columns: Readonly<Record<string, 'VARCHAR' | 'DOUBLE' | 'BIGINT'>>,
    rows: readonly (readonly (string | number | null)[])[],
  ): Promise<void> {
    const types = Object.values(columns);
    const definitions = Object.entries(columns).map(([column, type]) => `${column} ${type}`);
    await this.run(`CREATE OR REPLACE TEMP TABLE ${name} (${definitions.join(', ')})`);
    const appender = await this.connection.createAppender(name, 'main', 'temp');
    for (const row of rows) {
      for (const [index, value] of row.entries()) {
        if (value === null) appender.appendNull();
        else if (types[index] === 'VARCHAR') appender.appendVarchar(String(value));
        else if (types[index] === 'DOUBLE') appender.appendDouble(Number(value));
        else appender.appendBigInt(BigInt(value));
      }
      appender.endRow();
    }
    appender.closeSync();
  }

  /** Runs `work` in one transaction: all of it, or nothing. */
  async transaction<Result>(work: () => Promise<Result>): Promise<Result> {
    await this.run('BEGIN TRANSACTION');
    try {
      const result = await work();
      await this.run('COMMIT');
      return result;
    } catch (error) {
      await this.run('ROLLBACK').catch(() => undefined);
      throw error;
    }
  }

  /** Lets go of the store; a second time does nothing. */
  async close(): Promise<void> {
    if (this.#closed) return;
    this.#closed = true;
    this.connection.closeSync();
    // While nobody else can be writing: an empty folder is nobody's.
    if (this.mode === 'write') removeEmpty(join(this.folder, spillName));
    this.#instance.closeSync();
    if (this.mode === 'read') removeEmpty(join(this.folder, readersSpillName()));
    openHere.delete(this.#lockKey);
  }

  async #viewReadings(): Promise<void> {
    try {
      await refreshReadingsView(this.connection, this.segmentsFolder);
    } catch (error) {
      // A segment is gone, or is none any more.
      throw openingError(this.folder, this.mode, error);
    }
  }

  /** Removes what an interrupted run left behind: segment files that no transaction made known, half a catalogue, spilled memory. */
  async #sweep(): Promise<void> {
    const known = new Set((await this.rows<{ file: string }>('SELECT file FROM segments')).map((row) => row.file));
    const left = readdirSync(this.segmentsFolder).filter((file) => !known.has(file));
    const others = readdirSync(this.folder).filter(
      (name) => isUnfinishedCatalogue(name, catalogueName) || isSpillName(name),
    );
    for (const path of [...left.map((file) => join(segmentsName, file)), ...others]) {
      try {
        rmSync(join(this.folder, path), { recursive: true, force: true });
      } catch {
        // What cannot be removed now is in nobody's way, and goes another time.
      }
    }
  }
}

async function makeFolders(folder: string): Promise<void> {
  try {
    mkdirSync(join(folder, segmentsName), { recursive: true });
    await makeCatalogue(join(folder, catalogueName), join(folder, segmentsName));
  } catch (error) {
    if (error instanceof DryholdError) throw error;
    const { code, message } = error as NodeJS.ErrnoException;
    const isInTheWay = code === 'EEXIST' || code === 'ENOTDIR';
    const problem = machineProblem(error) ?? message;
    throw new DryholdError(isInTheWay ? 'store-unreadable' : 'store-unwritable', { path: folder, problem }, error);
  }
}

async function openAt(folder: string, mode: StoreMode): Promise<Store> {
  const lockKey = realpathSync(folder);
  if (openHere.has(lockKey)) throw new DryholdError('store-busy', { path: folder, holder: 'this process' });
  openHere.add(lockKey);
  let instance: DuckDBInstance | undefined;
  let connection: DuckDBConnection | undefined;
  try {
    instance = await DuckDBInstance.create(join(folder, catalogueName), {
      access_mode: mode === 'write' ? 'READ_WRITE' : 'READ_ONLY',
      memory_limit: engineMemory.usual,
      temp_directory: join(folder, mode === 'write' ? spillName : readersSpillName()),
      autoinstall_known_extensions: 'false',
    });
    connection = await instance.connect();
    await connection.run(connectionSettings);
    const found = await storeVersion(connection);
    if (found > newestVersion) throw new DryholdError('store-newer', { path: folder, found, known: newestVersion });
    return Store.make(folder, mode, instance, connection, lockKey);
  } catch (error) {
    // The engine holds the file for as long as it has a connection.
    connection?.closeSync();
    instance?.closeSync();
    openHere.delete(lockKey);
    throw openingError(folder, mode, error);
  }
}

function removeEmpty(folder: string): void {
  try {
    rmdirSync(folder);
  } catch {
    // It holds something, or is not there.
  }
}

async function readToEnd(result: DuckDBResult): Promise<void> {
  for await (const _ of result);
}

function plain(row: PlainRow): PlainRow {
  for (const name in row) row[name] = plainValue(row[name]);
  return row;
}

/** A value of DuckDB as a plain one: BIGINT as number, days as ISO 8601 text. */
export function plainValue(value: unknown): unknown {
  if (typeof value === 'bigint') return Number(value);
  return value instanceof Date ? value.toISOString().slice(0, 10) : value;
}
