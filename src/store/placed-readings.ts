import { join } from 'node:path';
import { DryholdError } from '../errors.ts';
import { type Column, columnsOf } from '../records/table.ts';
import { readings } from '../records/tables/readings.ts';
import { identifier, parquetFiles, sqlType } from './sql.ts';
import type { Store } from './store.ts';

type Segment = { segment_id: number; file: string; columns: string[]; first_row: number; last_row: number };

/** The readings of some jobs, wherever segments hold them. */
export class PlacedReadings {
  /** How many there are. */
  readonly rows: number;
  /** Columns that some of their segments have, and those that every segment has, in the order of the table. */
  readonly columns: readonly Column[];
  readonly #store: Store;
  readonly #segments: readonly Segment[];

  private constructor(store: Store, segments: readonly Segment[], rows: number) {
    const present = new Set(segments.flatMap(({ columns }) => columns));
    this.rows = rows;
    this.columns = columnsOf(readings).filter((column) => column.required || present.has(column.name));
    this.#store = store;
    this.#segments = segments;
  }

  /**
   * Finds them, and lists in `temp.placed_jobs` where they lie.
   *
   * @param jobs a temporary table of job ids
   */
  static async of(store: Store, jobs: string): Promise<PlacedReadings> {
    await store.run(
      `CREATE OR REPLACE TEMP TABLE placed_jobs AS FROM segment_jobs SEMI JOIN temp.${identifier(jobs)} USING (job_id)`,
    );
    const segments = await store.rows<Segment>(`
      SELECT segment_id, any_value(g.file) AS file, any_value(g.columns) AS columns, min(p.first_row) AS first_row,
        max(p.first_row + p.rows) - 1 AS last_row
      FROM temp.placed_jobs p JOIN segments g USING (segment_id) GROUP BY segment_id ORDER BY segment_id`);
    const [{ rows }] = await store.rows<{ rows: number }>(
      'SELECT coalesce(sum(rows), 0)::BIGINT AS rows FROM temp.placed_jobs',
    );
    return new PlacedReadings(store, segments, rows);
  }

  /** A select of the columns that there are; it reads no more of each segment than from the first of the jobs to the last. */
  get select(): string {
    if (this.#segments.length > 0) return this.#segments.map((segment) => this.#selectOf(segment)).join(' UNION ALL ');
    return `SELECT ${this.columns.map((column) => `NULL::${sqlType(column)} AS ${identifier(column.name)}`).join(', ')} WHERE false`;
  }

  #selectOf(segment: Segment): string {
    const list = this.columns.map((column) => {
      const has = segment.columns.includes(column.name);
      return has ? identifier(column.name) : `NULL::${sqlType(column)} AS ${identifier(column.name)}`;
    });
    // Of a job that was moved a segment still has rows that count no more.
    return `SELECT ${list.join(', ')} FROM ${parquetFiles(join(this.#store.segmentsFolder, segment.file), 'file_row_number = true')}
      WHERE file_row_number BETWEEN ${segment.first_row} AND ${segment.last_row}
        AND job_id IN (SELECT job_id FROM temp.placed_jobs WHERE segment_id = ${segment.segment_id})`;
  }

  /**
   * Runs a statement that reads them.
   *
   * @throws DryholdError `file-unreadable` where a segment is damaged
   */
  async run(statement: string): Promise<void> {
    try {
      await this.#store.run(statement);
    } catch (error) {
      throw error instanceof DryholdError ? error : this.#unreadable(error as Error);
    }
  }

  /** The engine names the file where it can; else it is one of them. */
  #unreadable(error: Error): DryholdError {
    const segments = this.#segments;
    const named =
      segments.find(({ file }) => error.message.includes(file)) ?? (segments.length === 1 ? segments[0] : undefined);
    const path = named === undefined ? this.#store.segmentsFolder : join(this.#store.segmentsFolder, named.file);
    return new DryholdError('file-unreadable', { path, problem: error.message.split('\n')[0] }, error);
  }
}
