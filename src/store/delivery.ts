import { rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Table } from '../records/table.ts';
import { readings } from '../records/tables/readings.ts';
import { type Reject, rejects } from '../records/tables/rejects.ts';
import type { Source } from '../records/tables/sources.ts';
import type { DeliveredFile } from './delivered-file.ts';
import { publishReadings } from './publish-readings.ts';
import { publishRows } from './publish-rows.ts';
import { entangledParts, type ReadingPart, sortedOut, writePart } from './reading-part.ts';
import { refreshReadingsView } from './readings-view.ts';
import { columnList } from './sql.ts';
import { RowStage, stagingName } from './stage-rows.ts';
import type { Store } from './store.ts';

/**
 * One delivery: the files of a bundle or one mapped file, made known in one transaction or not at all.
 *
 * Rows are staged first, in temporary tables and unnamed segment files; `publish` then sorts out what is new, what the
 * store already has and what contradicts itself, and commits everything together.
 */
export class Delivery {
  readonly store: Store;
  readonly files: DeliveredFile[] = [];
  readonly #stages = new Map<string, RowStage>();
  readonly #parts: ReadingPart[] = [];
  #partCount = 0;

  constructor(store: Store) {
    this.store = store;
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

  /** Refuses a row, or with line 0 a whole file. */
  async reject(reject: Reject): Promise<void> {
    (await this.stage(rejects)).append(reject, { fileNumber: 0, line: 0, raw: '' });
  }

  /** The staging table of a table, made at its first row. */
  async stage(table: Table): Promise<RowStage> {
    let stage = this.#stages.get(table.name);
    if (stage === undefined) {
      stage = await RowStage.begin(this.store, table);
      this.#stages.set(table.name, stage);
    }
    return stage;
  }

  /**
   * Writes readings from a select statement straight into a segment file, in (job, time) order.
   *
   * @returns the number of rows, or undefined where a reading stands twice, which only the row-by-row reader can book
   */
  async stageReadings(fileNumber: number, select: string, columns: readonly string[]): Promise<number | undefined> {
    const part = await writePart(this.store, select, { path: this.#newPartPath(), fileNumber, columns });
    if (part !== undefined) this.#parts.push(part);
    return part?.rows;
  }

  /**
   * Takes back the staged files that share a job with another file of the delivery; they must be staged row by row.
   *
   * @returns their file numbers
   */
  async dropEntangled(): Promise<number[]> {
    const entangled = await entangledParts(this.store, this.#parts, this.#stages.has(readings.name));
    for (const part of entangled) {
      rmSync(part.path, { force: true });
      this.#parts.splice(this.#parts.indexOf(part), 1);
    }
    return entangled.flatMap((part) => part.fileNumber ?? []);
  }

  /**
   * Makes everything known in one transaction.
   *
   * @returns the rows of `sources` that were added
   */
  async publish(): Promise<Source[]> {
    for (const stage of this.#stages.values()) stage.end();
    const stagedReadings = this.#stages.has(readings.name);
    const changed = new Set<string>();
    const published: string[] = [];
    try {
      const sources = await this.store.transaction(async () => {
        for (const stage of this.#stages.values()) {
          if (stage.table === readings || stage.table === rejects) continue;
          for (const job of await publishRows(this.store, this.files, stage.table)) changed.add(job);
        }
        if (stagedReadings) this.#parts.push(...(await sortedOut(this.store, this.files, this.#newPartPath())));
        const outcome = await publishReadings(this.store, this.#parts, this.files);
        published.push(...outcome.paths);
        for (const job of outcome.changedJobs) changed.add(job);
        await this.#raiseRevisions(changed);
        await refreshReadingsView(this.store);
        return this.#writeBook();
      });
      this.discard(published);
      return sources;
    } catch (error) {
      this.discard([]);
      for (const path of published) rmSync(path, { force: true });
      throw error;
    }
  }

  /** Removes staged files and tables that were not published. */
  discard(published: readonly string[] = []): void {
    for (const part of this.#parts) if (!published.includes(part.path)) rmSync(part.path, { force: true });
    this.#parts.length = 0;
  }

  async #raiseRevisions(jobs: ReadonlySet<string>): Promise<void> {
    if (jobs.size === 0) return;
    await this.store.run('CREATE OR REPLACE TEMP TABLE changed_jobs (job_id VARCHAR)');
    const appender = await this.store.connection.createAppender('changed_jobs', 'main', 'temp');
    for (const job of jobs) {
      appender.appendVarchar(job);
      appender.endRow();
    }
    appender.closeSync();
    await this.store.run(`INSERT INTO job_revisions SELECT job_id, 1 FROM temp.changed_jobs
      ON CONFLICT (job_id) DO UPDATE SET revision = revision + 1`);
  }

  /** Writes the delivery's `sources` and `rejects`; those of an earlier reading of the same bytes give way. */
  async #writeBook(): Promise<Source[]> {
    const book: Source[] = [];
    for (const file of this.files) {
      const kept = file.rowsRead - file.rowsRejected - file.rowsRepeated;
      await this.store.run('DELETE FROM rejects WHERE file = $1 AND (table_name = $2 OR table_name IS NULL)', [
        file.file,
        file.table.name,
      ]);
      await this.store.run('DELETE FROM sources WHERE file = $1 AND table_name = $2', [file.file, file.table.name]);
      await this.store.run('INSERT INTO sources VALUES ($1, $2, $3, $4, $5, $6, $7, $8)', [
        file.file,
        file.sha256,
        file.table.name,
        BigInt(file.rowsRead),
        BigInt(kept),
        BigInt(file.rowsRejected),
        BigInt(file.rowsRepeated),
        file.mapSha256,
      ]);
      book.push({
        file: file.file,
        sha256: file.sha256,
        table_name: file.table.name,
        rows_read: file.rowsRead,
        rows_kept: kept,
        rows_rejected: file.rowsRejected,
        rows_repeated: file.rowsRepeated,
      });
    }
    if (this.#stages.has(rejects.name)) {
      await this.store.run(`INSERT INTO rejects SELECT ${columnList(rejects)} FROM temp.${stagingName(rejects)}`);
    }
    return book;
  }

  #newPartPath(): string {
    this.#partCount += 1;
    return join(this.store.segmentsFolder, `staged-${process.pid}-${this.#partCount}.parquet`);
  }
}
