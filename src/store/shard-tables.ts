import { join } from 'node:path';
import { DryholdError } from '../errors.ts';
import type { Table } from '../records/table.ts';
import { cylinders } from '../records/tables/cylinders.ts';
import { gauges } from '../records/tables/gauges.ts';
import { jobs } from '../records/tables/jobs.ts';
import { lineSets } from '../records/tables/line-sets.ts';
import { readings } from '../records/tables/readings.ts';
import { weighings } from '../records/tables/weighings.ts';
import { exportCells } from './export-table.ts';
import { PlacedReadings } from './placed-readings.ts';
import { copyToSegment, orderFor } from './reading-part.ts';
import { identifier, parquetFiles } from './sql.ts';
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
  const placed = await PlacedReadings.of(store, 'shard_jobs');
  const order = orderFor(placed.columns.map((column) => column.name));
  await placed.run(copyToSegment(`FROM (${placed.select}) ORDER BY ${order}`, path));
  const [{ written }] = await store.rows<{ written: number }>(`SELECT count(*) AS written FROM ${parquetFiles(path)}`);
  if (written === placed.rows) return written;
  const problem = `it holds ${written} readings of these jobs where the store knows of ${placed.rows}`;
  throw new DryholdError('file-unreadable', { path: store.segmentsFolder, problem });
}
