import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { DryholdError } from '../errors.ts';
import type { Table } from '../records/table.ts';
import { readings } from '../records/tables/readings.ts';
import { type Reject, rejects } from '../records/tables/rejects.ts';
import type { Source } from '../records/tables/sources.ts';
import type { DeliveredFile } from './delivered-file.ts';
import { isBreakdown } from './engine-breakdown.ts';
import type { Overruled } from './fed-readings.ts';
import type { StoredLogStarts } from './log-starts.ts';
import { prepareReadings, publishReadings } from './publish-readings.ts';
import { publishRows } from './publish-rows.ts';
import { entangledParts, type ReadingPart, sortedOut, writePart } from './reading-part.ts';
import { refreshReadingsView } from './readings-view.ts';
import { columnList } from './sql.ts';
import { RowStage, stagingName } from './stage-rows.ts';
import type { Store } from './store.ts';

/** So many rows of one table, read one by one, are many. */
const manyRows = 600_000;

/** The columns of `sources`, and the map that a file came in by. */
const bookColumns = {
  file: 'VARCHAR',
  sha256: 'VARCHAR',
  table_name: 'VARCHAR',
  rows_read: 'BIGINT',
  rows_kept: 'BIGINT',
  rows_rejected: 'BIGINT',
  rows_repeated: 'BIGINT',
  map_sha256: 'VARCHAR',
} as const;

/**
 * One delivery: the files of a bundle, or a batch of mapped files, made known in one transaction or not at all.
 *
 * Rows are staged first, in temporary tables and unnamed segment files; `publish` then sorts out what is new, what the
 * store already has and what contradicts itself, and commits everything together.
 */
export class Delivery {
  readonly store: Store;
  readonly files: DeliveredFile[] = [];
  /** Files whose readings gave way, wholly or in part, to those of this delivery. */
  readonly overruled: Overruled[] = [];
  readonly #stages = new Map<string, RowStage>();
  readonly #parts: ReadingPart[] = [];
  readonly #refused: string[] = [];
  readonly #starts: StoredLogStarts | undefined;
  readonly #paths: string[] = [];
  #isSparing = false;

  /** @param starts when logs began, saved with what is delivered */
  constructor(store: Store, starts?: StoredLogStarts) {
    this.store = store;
    this.#starts = starts;
  }

  /** Whether there is nothing to make known. */
  get isEmpty(): boolean {
    return this.files.length === 0 && this.#refused.length === 0;
  }

  /** Adds a file; its number is what staged rows refer to. */
  addFile(file: Omit<DeliveredFile, 'rowsRead' | 'rowsRejected' | 'rowsRepeated'>): {
    number: number;
    file: DeliveredFile;
  } {
    const added = { ...file, rowsRead: 0, rowsRejected: 0, rowsRepeated: 0 };
    this.files.push(added);
    return { number: this.files.length - 1, file: added };
  }

  /**
   * Refuses a row, or with line 0 a whole file.
   *
   * @param fileNumber the row's file
   */
  async reject(reject: Reject, fileNumber = -1): Promise<void> {
    if (reject.line === 0) this.#refused.push(reject.file);
    (await this.stage(rejects)).append(reject, { fileNumber, row: 0, line: reject.line, raw: '' });
  }

  /** Takes back the files from this number on with everything that was staged of them. */
  async dropFilesFrom(number: number): Promise<void> {
    this.files.length = number;
    this.#dropParts(this.#parts.filter((part) => part.fileNumber !== undefined && part.fileNumber >= number));
    for (const stage of this.#stages.values()) {
      stage.flush();
      await this.store.run(`DELETE FROM temp.${stagingName(stage.table)} WHERE _file >= ${number}`);
    }
  }

  /** The staging table of a table, made at its first row; to be asked for row by row, since very many need room. */
  async stage(table: Table): Promise<RowStage> {
    let stage = this.#stages.get(table.name);
    if (stage === undefined) {
      stage = await RowStage.begin(this.store, table);
      this.#stages.set(table.name, stage);
    }
    if (!this.#isSparing && stage.rows > manyRows) {
      this.#isSparing = true;
      await this.store.holdInMemory('spare');
    }
    return stage;
  }

  /**
   * Writes readings from a select statement straight into a segment file, in (job, time) order.
   *
   * @returns the number of rows, or undefined where a value is wrong or a reading stands twice, which only the row-by-row
   * reader can book
   */
  async stageReadings(fileNumber: number, select: string, columns: readonly string[]): Promise<number | undefined> {
    let part: ReadingPart | undefined;
    try {
      part = await writePart(this.store, select, { path: this.newPartPath(), fileNumber, columns });
    } catch (error) {
      if (error instanceof DryholdError || isBreakdown(error)) throw error;
    }
    if (part !== undefined) this.#parts.push(part);
    return part?.rows;
  }

  /**
   * Takes back the staged files that share a job with another file of the delivery; they must be staged row by row.
   *
   * @returns their file numbers
   */
  async dropEntangled(): Promise<number[]> {
    this.#stages.get(readings.name)?.flush();
    const entangled = await entangledParts(this.store, this.#parts, this.#stages.has(readings.name));
    this.#dropParts(entangled);
    return entangled.flatMap((part) => part.fileNumber ?? []);
  }

  /**
   * Merges the readings of known jobs, then makes everything known in one transaction.
   *
   * @returns the rows of `sources` that were added
   */
  async publish(): Promise<Source[]> {
    const published: string[] = [];
    try {
      for (const stage of this.#stages.values()) stage.end();
      const staged = this.#stages.has(readings.name);
      if (staged) this.#parts.push(...(await sortedOut(this.store, this.files, this.newPartPath())));
      const delivered = { parts: this.#parts, files: this.files, staged, newPath: () => this.newPartPath() };
      const merged = await prepareReadings(this.store, delivered);
      return await this.store.transaction(async () => {
        await this.#clearBook();
        const changed = new Set<string>();
        for (const { table } of this.#stages.values()) {
          if (table === readings || table === rejects) continue;
          for (const job of await publishRows(this.store, this.files, table)) changed.add(job);
        }
        const readingsNow = await publishReadings(this.store, delivered, merged, published);
        for (const job of readingsNow.changed) changed.add(job);
        this.overruled.push(...readingsNow.overruled);
        await this.#raiseRevisions(changed);
        await this.#starts?.save(this.store);
        await refreshReadingsView(this.store.connection, this.store.segmentsFolder);
        return this.#writeBook();
      });
    } catch (error) {
      for (const path of published) rmSync(path, { force: true });
      throw error;
    } finally {
      await this.discard();
    }
  }

  /** Removes what is staged and was not published. */
  async discard(): Promise<void> {
    this.#parts.length = 0;
    for (const path of this.#paths) rmSync(path, { force: true });
    for (const stage of this.#stages.values()) await stage.drop(this.store);
    this.#stages.clear();
    if (this.#isSparing) await this.store.holdInMemory('usual');
    this.#isSparing = false;
  }

  #dropParts(parts: readonly ReadingPart[]): void {
    for (const part of parts) {
      rmSync(part.path, { force: true });
      this.#parts.splice(this.#parts.indexOf(part), 1);
    }
  }

  async #raiseRevisions(jobs: ReadonlySet<string>): Promise<void> {
    if (jobs.size === 0) return;
    await this.store.fill('changed_jobs', jobs);
    await this.store.run(`INSERT INTO job_revisions SELECT job_id, 1 FROM temp.changed_jobs
      ON CONFLICT (job_id) DO UPDATE SET revision = revision + 1`);
  }

  /** The `sources` and `rejects` of earlier files of the same name give way. */
  async #clearBook(): Promise<void> {
    const booked = this.files.map(({ file, table }) => [file, table.name]);
    await this.store.fillRows('booked', { file: 'VARCHAR', table_name: 'VARCHAR' }, booked);
    await this.store.run(`DELETE FROM rejects r USING temp.booked b
      WHERE r.file = b.file AND (r.table_name = b.table_name OR r.table_name IS NULL)`);
    await this.store.run(
      'DELETE FROM sources s USING temp.booked b WHERE s.file = b.file AND s.table_name = b.table_name',
    );
    if (this.#refused.length === 0) return;
    await this.store.fillRows(
      'refused_files',
      { file: 'VARCHAR' },
      this.#refused.map((file) => [file]),
    );
    await this.store.run('DELETE FROM rejects r USING temp.refused_files f WHERE r.file = f.file AND r.line = 0');
  }

  /** Writes the delivery's `sources` and those `rejects` that were refused row by row. */
  async #writeBook(): Promise<Source[]> {
    if (this.#stages.has(rejects.name))
      await this.store.run(`INSERT INTO rejects SELECT ${columnList(rejects)} FROM temp.${stagingName(rejects)}`);
    const book = this.files.map((file) => ({
      file: file.file,
      sha256: file.sha256,
      table_name: file.table.name,
      rows_read: file.rowsRead,
      rows_kept: file.rowsRead - file.rowsRejected - file.rowsRepeated,
      rows_rejected: file.rowsRejected,
      rows_repeated: file.rowsRepeated,
    }));
    const rows = book.map((row, index) => [...Object.values(row), this.files[index].mapSha256]);
    await this.store.fillRows('new_sources', bookColumns, rows);
    await this.store.run('INSERT INTO sources BY NAME FROM temp.new_sources');
    return book;
  }

  /** A path for a part that is being written; what lies there is swept at the next opening. */
  newPartPath(): string {
    const path = join(this.store.segmentsFolder, `staged-${process.pid}-${this.#paths.length + 1}.parquet`);
    this.#paths.push(path);
    return path;
  }
}
