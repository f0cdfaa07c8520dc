import { join } from 'node:path';
import { DryholdError } from '../errors.ts';
import { columnsOf, type Table } from '../records/table.ts';
import { cylinders } from '../records/tables/cylinders.ts';
import { gauges } from '../records/tables/gauges.ts';
import { jobs } from '../records/tables/jobs.ts';
import { lineSets } from '../records/tables/line-sets.ts';
import { readings } from '../records/tables/readings.ts';
import { weighings } from '../records/tables/weighings.ts';
import { copyToSegment, orderFor } from './reading-part.ts';
import { exportCells } from './export-table.ts';
import { identifier, parquetFiles, sqlType } from './sql.ts';
import type { Store } from './store.ts';

/** The tables of records that a job is judged by, and which of their rows belong to the jobs in `temp.shard_jobs`. */
const ofShardJobs: readonly (readonly [table: Table, rows: string])[] = [
  [jobs, 'SEMI JOIN temp.shard_jobs USING (job_id)'],
  [lineSets, 'SEMI JOIN temp.shard_jobs USING (job_id)'],
  [weighings, 'SEMI JOIN temp.shard_jobs USING (job_id)'],
  [gauges, 'SEMI JOIN (FROM jobs SEMI JOIN temp.shard_jobs USING (job_id)) USING (gauge_id)'],
  [cylinders, 'SEMI JOIN (FROM weighings SEMI JOIN temp.shard_jobs USING (job_id)) USING (cylinder_id)'],
];

/** The tables of records that a job is judged by; a shard has a file of each, as it has of `readings`. */
export const shardRecords: readonly Table[] = ofShardJobs.map(([table]) => table);

/** What a shard keeps beside its tables: of each job the revision that it is of, and on what its judgement rests. */
export const statesName = 'revisions';

/** The files of a shard beside the one that says what it is. */
export const shardFiles: readonly string[] = [...shardRecords.map(({ name }) => name), readings.name, statesName].map(
  (name) => `${name}.parquet`,
);

/** The file of a table in a shard's folder. */
export function shardFile(folder: string, name: string): string {
  return join(folder, `${name}.parquet`);
}

type Segment = { segment_id: number; file: string; columns: string[]; first_row: number; last_row: number };

/**
 * Writes the jobs in `temp.shard_jobs` with all that they are judged by into a folder, as Parquet: each table of records, the readings in (job, time)
 * order, and of each job what `temp.job_states` tells.
 *
 * @param codes whether technicians go by the codes of `temp.person_codes`, and free text is left out
 * @returns how many readings there are
 * @throws DryholdError `file-unreadable` where a segment is damaged
 */
export async function writeShardTables(store: Store, folder: string, codes: boolean): Promise<number> {
  for (const [table, rows] of ofShardJobs) {
    const order = table.key.map((name) => `${identifier(name)} NULLS FIRST`).join(', ');
    await store.run(
      copyToSegment(
        `SELECT ${exportCells(table, codes)} FROM ${identifier(table.name)} t ${rows} ORDER BY ${order}`,
        shardFile(folder, table.name),
      ),
    );
  }
  await store.run(
    copyToSegment(
      'SELECT job_id, revision, state FROM temp.job_states SEMI JOIN temp.shard_jobs USING (job_id) ORDER BY job_id',
      shardFile(folder, statesName),
    ),
  );
  return writeReadings(store, shardFile(folder, readings.name));
}

async function writeReadings(store: Store, path: string): Promise<number> {
  await store.run(
    'CREATE OR REPLACE TEMP TABLE shard_places AS FROM segment_jobs SEMI JOIN temp.shard_jobs USING (job_id)',
  );
  const segments = await store.rows<Segment>(`
    SELECT segment_id, any_value(g.file) AS file, any_value(g.columns) AS columns, min(p.first_row) AS first_row,
      max(p.first_row + p.rows) - 1 AS last_row
    FROM temp.shard_places p JOIN segments g USING (segment_id) GROUP BY segment_id ORDER BY segment_id`);
  const [{ rows }] = await store.rows<{ rows: number }>(
    'SELECT coalesce(sum(rows), 0)::BIGINT AS rows FROM temp.shard_places',
  );
  const present = new Set(segments.flatMap(({ columns }) => columns));
  const columns = columnsOf(readings).filter((column) => column.required || present.has(column.name));
  const of = (segment: Segment) => {
    const list = columns.map((column) => {
      const has = segment.columns.includes(column.name);
      return has ? identifier(column.name) : `NULL::${sqlType(column)} AS ${identifier(column.name)}`;
    });
    // Of a job that was moved a segment still has rows that count no more.
    return `SELECT ${list.join(', ')} FROM ${parquetFiles(join(store.segmentsFolder, segment.file), 'file_row_number = true')}
      WHERE file_row_number BETWEEN ${segment.first_row} AND ${segment.last_row}
        AND job_id IN (SELECT job_id FROM temp.shard_places WHERE segment_id = ${segment.segment_id})`;
  };
  const none = `SELECT ${columns.map((column) => `NULL::${sqlType(column)} AS ${identifier(column.name)}`).join(', ')} WHERE false`;
  const union = segments.length === 0 ? none : segments.map(of).join(' UNION ALL ');
  try {
    await store.run(copyToSegment(`FROM (${union}) ORDER BY ${orderFor(columns.map((column) => column.name))}`, path));
  } catch (error) {
    throw error instanceof DryholdError ? error : unreadableSegment(store, segments, error as Error);
  }
  const [{ written }] = await store.rows<{ written: number }>(`SELECT count(*) AS written FROM ${parquetFiles(path)}`);
  if (written === rows) return rows;
  const problem = `it holds ${written} readings of these jobs where the store knows of ${rows}`;
  throw new DryholdError('file-unreadable', { path: store.segmentsFolder, problem });
}

/** The engine names the file where it can; else it is one of them. */
function unreadableSegment(store: Store, segments: readonly Segment[], error: Error): DryholdError {
  const named =
    segments.find(({ file }) => error.message.includes(file)) ?? (segments.length === 1 ? segments[0] : undefined);
  const path = named === undefined ? store.segmentsFolder : join(store.segmentsFolder, named.file);
  return new DryholdError('file-unreadable', { path, problem: error.message.split('\n')[0] }, error);
}
