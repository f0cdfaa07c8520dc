import { columnsOf } from '../records/table.ts';
import { readings } from '../records/tables/readings.ts';
import { type DeliveredFile, filesRelation } from './delivered-file.ts';
import type { ReadingPart } from './reading-part.ts';
import { identifier, literal, parquetFiles } from './sql.ts';
import { stagingName } from './stage-rows.ts';
import type { Store } from './store.ts';

/** A file whose readings of some jobs gave way, wholly or in part, to those of another. */
export interface Overruled {
  readonly file: string;
  readonly by: string;
  readonly jobs: number;
}

/** The columns of the readings that are no part of their key. */
export const readingValues = columnsOf(readings)
  .map((column) => column.name)
  .filter((name) => !readings.key.includes(name));

/** The condition that two relations speak of the same gauge of the same job. */
export function sameGauge(left: string, right: string): string {
  return `${left}.job_id = ${right}.job_id AND ${left}.gauge IS NOT DISTINCT FROM ${right}.gauge`;
}

/** The columns of a group of readings that hold anything, as a list. */
function columnsWithValues(present: readonly string[]): string {
  const named = readingValues
    .filter((name) => present.includes(name))
    .map((name) => `CASE WHEN count(${identifier(name)}) > 0 THEN ${literal(name)} END`);
  return `list_filter([${named.join(', ')}]::VARCHAR[], name -> name IS NOT NULL)`;
}

/**
 * A select that lists the gauges of each job of a segment file: where its rows begin, how many they are and how many are
 * marked, the columns that hold anything, and the stretch of time [s].
 */
export function gaugeListing(part: Pick<ReadingPart, 'path' | 'columns'>): string {
  const has = (column: string) => part.columns.includes(column);
  return `SELECT job_id, ${has('gauge') ? 'gauge' : 'NULL::VARCHAR AS gauge'}, min(file_row_number) AS first_row,
      count(*) AS rows, ${has('phase_mark') ? 'count(phase_mark)' : '0::BIGINT'} AS marks,
      ${columnsWithValues(part.columns)} AS columns, min(elapsed_s) AS from_s, max(elapsed_s) AS to_s
    FROM ${parquetFiles(part.path, 'file_row_number = true')} GROUP BY ALL`;
}

/**
 * A select of what each file of a delivery feeds of each gauge of a job, from the parts' listing in `temp.delivered_gauges`
 * or, where files were mixed in one part, the rows staged one by one.
 */
function deliveredFed(files: readonly DeliveredFile[], mixed: boolean): string {
  const ofRows = `UNION ALL SELECT _file, job_id, gauge, ${columnsWithValues(readingValues)}, min(elapsed_s), max(elapsed_s)
    FROM temp.${stagingName(readings)} WHERE _nth <= 1 OR _as_first GROUP BY ALL`;
  return `SELECT _file, job_id, file, map_name, sha256, gauge, columns, from_s, to_s FROM (
      SELECT _file, job_id, gauge, columns, from_s, to_s FROM temp.delivered_gauges WHERE _file IS NOT NULL ${mixed ? ofRows : ''}
    ) JOIN ${filesRelation(files)} USING (_file)`;
}

/** Whether the store has readings of a delivered job, or ever took any from a delivered file. */
export async function concernsKnown(store: Store, files: readonly DeliveredFile[]): Promise<boolean> {
  const [{ known }] = await store.rows<{ known: boolean }>(`
    SELECT EXISTS (FROM segment_jobs SEMI JOIN temp.delivered_gauges USING (job_id)) OR EXISTS (FROM fed_readings
      WHERE sha256 IN (${files.map(({ sha256 }) => literal(sha256)).join(', ')})) AS known`);
  return known;
}

/**
 * Lists in `temp.delivered_fed` what the files of a delivery feed, and in `temp.withdrawn_fed` what they fed before: the
 * same bytes under another map all they fed, a file of the same name and map only of the jobs that it still has. An export
 * of the last days keeps its name and drops older jobs; that is no word against them.
 */
export async function listFed(store: Store, files: readonly DeliveredFile[], mixed: boolean): Promise<void> {
  await store.run(`CREATE OR REPLACE TEMP TABLE delivered_fed AS ${deliveredFed(files, mixed)}`);
  await store.run(`CREATE OR REPLACE TEMP TABLE withdrawn_fed AS SELECT rowid AS id, * FROM fed_readings f
    WHERE EXISTS (FROM (SELECT DISTINCT file AS new_file, map_name AS new_map, sha256 AS bytes FROM ${filesRelation(files)})
        WHERE bytes = f.sha256 AND (new_map <> f.map_name OR new_file = f.file))
      OR EXISTS (FROM temp.delivered_fed d WHERE d.file = f.file AND d.map_name = f.map_name AND d.job_id = f.job_id)`);
}

/** Writes down what the files of a delivery feed, where the store knew none of its jobs. */
export async function recordNew(store: Store, files: readonly DeliveredFile[], mixed: boolean): Promise<void> {
  await store.run(`INSERT INTO fed_readings SELECT * EXCLUDE _file FROM (${deliveredFed(files, mixed)})`);
}

/**
 * Writes down what the files of a delivery feed now, in place of what they fed before. Of what other files fed, the cells
 * that were emptied for these (`temp.overruled`) are struck. A file that came again, and of which nothing counts any more, leaves
 * the book.
 *
 * @returns which other files they overruled
 */
export async function recordMerged(store: Store, files: readonly DeliveredFile[]): Promise<Overruled[]> {
  await store.run('DELETE FROM fed_readings WHERE rowid IN (SELECT id FROM temp.withdrawn_fed)');
  const overruled: Overruled[] = [];
  for (const [number, { file: by }] of files.entries())
    for (const other of await strikeOverruled(store, number)) if (other.file !== by) overruled.push({ ...other, by });
  await store.run('INSERT INTO fed_readings SELECT * EXCLUDE _file FROM temp.delivered_fed');
  const gone = `table_name = ${literal(readings.name)} AND file IN (SELECT file FROM temp.withdrawn_fed
    EXCEPT SELECT file FROM fed_readings EXCEPT SELECT file FROM ${filesRelation(files)})`;
  await store.run(`DELETE FROM rejects WHERE ${gone}`);
  await store.run(`DELETE FROM sources WHERE ${gone}`);
  return overruled;
}

/**
 * Cuts what one delivered file overruled out of the other files' stretches: what is before it, after it, and beside it stays.
 *
 * @returns the other files, and how many jobs of each that concerns
 */
async function strikeOverruled(store: Store, number: number): Promise<{ file: string; jobs: number }[]> {
  await store.run(`CREATE OR REPLACE TEMP TABLE struck AS
    SELECT f.rowid AS id, f.*, o.columns AS other_columns, o.from_s AS other_from_s, o.to_s AS other_to_s
    FROM fed_readings f JOIN temp.overruled o ON ${sameGauge('f', 'o')}
    WHERE o._file = ${number} AND f.from_s <= o.to_s AND f.to_s >= o.from_s AND list_has_any(f.columns, o.columns)`);
  const files = await store.rows<{ file: string; jobs: number }>(
    'SELECT file, count(DISTINCT job_id) AS jobs FROM temp.struck GROUP BY file ORDER BY file',
  );
  if (files.length === 0) return [];
  await store.run('DELETE FROM fed_readings WHERE rowid IN (SELECT id FROM temp.struck)');
  await store.run(`INSERT INTO fed_readings
    SELECT job_id, file, map_name, sha256, gauge, columns, from_s, nextafter(other_from_s, '-infinity'::DOUBLE)
      FROM temp.struck WHERE from_s < other_from_s
    UNION ALL
    SELECT job_id, file, map_name, sha256, gauge, columns, nextafter(other_to_s, 'infinity'::DOUBLE), to_s
      FROM temp.struck WHERE to_s > other_to_s
    UNION ALL
    SELECT job_id, file, map_name, sha256, gauge, list_filter(columns, name -> NOT list_contains(other_columns, name)),
      greatest(from_s, other_from_s), least(to_s, other_to_s)
      FROM temp.struck WHERE NOT list_has_all(other_columns, columns)`);
  return files;
}
