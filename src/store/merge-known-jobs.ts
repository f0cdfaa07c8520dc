import { join } from 'node:path';
import { readings } from '../records/tables/readings.ts';
import type { DeliveredReadings } from './delivered-readings.ts';
import { readingValues } from './fed-readings.ts';
import { contradictions, emptied, joined, type MergeColumns, sameJobs } from './merge-statements.ts';
import { saysNothingNew } from './publish-rows.ts';
import { copyToSegment, orderFor, type ReadingPart } from './reading-part.ts';
import { readingsFrom } from './readings-view.ts';
import { identifier } from './sql.ts';
import { stagingName } from './stage-rows.ts';
import type { Store } from './store.ts';

/** So many readings, old and new, are merged at a time; one job may be more. */
const batchRows = 500_000;

/** The tables that hold a batch's readings. */
const largeTables = ['old', 'new', 'after_withdrawal', 'after_overruling', 'pairs', 'joined'].map(
  (it) => `merge_${it}`,
);

export interface MergedJobs {
  /** Files of merged readings, each with jobs of its own. */
  readonly parts: ReadingPart[];
  /** The jobs whose readings are not what they were: those of the parts, and those of which none are left. */
  readonly changed: string[];
}

/**
 * Merges a delivery's readings with those that the store has of the same jobs: what its files fed before is withdrawn, what
 * they contradict is emptied (`temp.overruled` keeps that), the rest is joined cell by cell. Needs the listings
 * `temp.delivered_gauges`, `temp.delivered_fed` and `temp.withdrawn_fed`. Books repeated rows, or marks the staged ones.
 */
export async function mergeKnownJobs(store: Store, delivered: DeliveredReadings): Promise<MergedJobs> {
  await store.run(`CREATE OR REPLACE TEMP TABLE overruled (_file INTEGER, job_id VARCHAR, gauge VARCHAR, columns VARCHAR[],
    from_s DOUBLE, to_s DOUBLE)`);
  await store.run(`CREATE OR REPLACE TEMP TABLE merge_jobs AS
    SELECT job_id, segment_id, floor(sum(rows + coalesce(new_rows, 0)) OVER (ORDER BY segment_id, first_row) / ${batchRows})::BIGINT AS batch
    FROM segment_jobs LEFT JOIN (SELECT job_id, sum(rows) AS new_rows FROM temp.delivered_gauges GROUP BY job_id) USING (job_id)
    WHERE job_id IN (SELECT job_id FROM temp.delivered_gauges UNION ALL SELECT job_id FROM temp.withdrawn_fed)`);
  const merged: MergedJobs = { parts: [], changed: [] };
  const batches = await store.rows<{ batch: number }>('SELECT DISTINCT batch FROM temp.merge_jobs ORDER BY batch');
  for (const { batch } of batches) await mergeBatch(store, delivered, batch, merged);
  if (batches.length > 0) for (const table of largeTables) await store.run(`DROP TABLE IF EXISTS temp.${table}`);
  return merged;
}

async function mergeBatch(
  store: Store,
  delivered: DeliveredReadings,
  batch: number,
  merged: MergedJobs,
): Promise<void> {
  await store.run(
    `CREATE OR REPLACE TEMP TABLE batch_jobs AS SELECT job_id, segment_id FROM temp.merge_jobs WHERE batch = ${batch}`,
  );
  const columns = await loadBatch(store, delivered.parts);
  await bookRepeated(store, delivered, columns);
  await store.run(sameJobs('temp.merge_old', 'temp.merge_new', columns.all));
  for (const table of ['batch_jobs', 'merge_old', 'merge_new']) await dropSame(store, table);
  if (!(await holds(store, 'temp.batch_jobs'))) return;
  let left = 'temp.merge_old';
  if (await holds(store, 'temp.withdrawn_fed SEMI JOIN temp.batch_jobs USING (job_id)')) {
    await store.run(`CREATE OR REPLACE TEMP TABLE merge_spans AS
      SELECT job_id, gauge, columns, from_s, to_s, rowid NOT IN (SELECT id FROM temp.withdrawn_fed) AS kept
      FROM fed_readings SEMI JOIN temp.batch_jobs USING (job_id)`);
    await store.run(emptied(left, 'merge_after_withdrawal', columns.all));
    left = 'temp.merge_after_withdrawal';
  }
  if (await findOverruled(store, left, columns)) {
    await store.run(emptied(left, 'merge_after_overruling', columns.all));
    left = 'temp.merge_after_overruling';
  }
  await store.run(joined(left, columns.all));
  await store.run(sameJobs('temp.merge_old', 'temp.merge_joined', columns.all));
  for (const table of ['batch_jobs', 'merge_joined']) await dropSame(store, table);
  const changed = await store.rows<{ job_id: string }>('SELECT job_id FROM temp.batch_jobs');
  for (const { job_id } of changed) merged.changed.push(job_id);
  const part = await writeMerged(store, delivered.newPath(), columns.all);
  if (part !== undefined) merged.parts.push(part);
}

/** Takes the jobs of which nothing changes out of a table. */
async function dropSame(store: Store, table: string): Promise<void> {
  await store.run(`DELETE FROM temp.${table} WHERE job_id IN (SELECT job_id FROM temp.merge_same)`);
}

/** Loads a batch's stored and new readings into `temp.merge_old` and `temp.merge_new`, both with all columns of either. */
async function loadBatch(store: Store, parts: readonly ReadingPart[]): Promise<MergeColumns> {
  const segments = await store.rows<{ segment_id: number; file: string; columns: string[] }>(
    'SELECT segment_id, file, columns FROM segments SEMI JOIN temp.batch_jobs USING (segment_id)',
  );
  const old = readingValues.filter((name) => segments.some((segment) => segment.columns.includes(name)));
  const fresh = readingValues.filter((name) => parts.some((part) => part.columns.includes(name)));
  const all = readingValues.filter((name) => old.includes(name) || fresh.includes(name));
  const names = [...all, ...readings.key];
  const list = names.map((name) => `r.${identifier(name)}`).join(', ');
  const oldRows = readingsFrom(
    segments.map((segment) => ({ ...segment, path: join(store.segmentsFolder, segment.file) })),
  );
  await store.run(`CREATE OR REPLACE TEMP TABLE merge_old AS SELECT ${list} FROM (${oldRows}) r
    JOIN segments g ON g.file = parse_filename(r.filename)
    JOIN temp.batch_jobs b ON b.segment_id = g.segment_id AND b.job_id = r.job_id`);
  await store.run(`CREATE OR REPLACE TEMP TABLE merge_new AS SELECT ${list}
    FROM (${readingsFrom(parts)}) r SEMI JOIN temp.batch_jobs USING (job_id)`);
  return { all, shared: old.filter((name) => fresh.includes(name)) };
}

/** Counts the rows of a batch that say nothing that the store does not have; of those staged row by row, marks them. */
async function bookRepeated(
  store: Store,
  { files, parts, staged }: DeliveredReadings,
  { all }: MergeColumns,
): Promise<void> {
  const key = (left: string) =>
    readings.key.map((name) => `${left}.${identifier(name)} IS NOT DISTINCT FROM o.${identifier(name)}`).join(' AND ');
  const whole = parts.flatMap((part, number) => (part.byLine ? [] : [number]));
  const counted = await store.rows<{ _file: number; n: number }>(`SELECT _file, count(*) AS n
    FROM temp.merge_new n JOIN temp.merge_old o ON ${key('n')} AND ${saysNothingNew(all, 'n', 'o')}
    JOIN (SELECT DISTINCT job_id, _file FROM temp.delivered_gauges SEMI JOIN (SELECT unnest([${whole.join(', ')}]::INTEGER[]) AS part) USING (part)) g
      ON g.job_id = n.job_id
    GROUP BY _file`);
  for (const { _file, n } of counted) files[_file].rowsRepeated += n;
  if (!staged) return;
  await store.run(`UPDATE temp.${stagingName(readings)} s SET _known = true
    FROM temp.merge_old o WHERE ${key('s')} AND ${saysNothingNew(all, 's', 'o')}`);
}

/**
 * Finds what the delivered files contradict in what is left of the stored readings: `temp.merge_spans` then holds all that
 * these files have of that gauge, columns and stretch.
 *
 * @returns whether anything
 */
async function findOverruled(store: Store, left: string, { shared }: MergeColumns): Promise<boolean> {
  if (shared.length === 0) return false;
  for (const statement of contradictions(left, shared)) await store.run(statement);
  await store.run(`CREATE OR REPLACE TEMP TABLE merge_spans AS
    SELECT DISTINCT d._file, d.job_id, d.gauge, d.columns, d.from_s, d.to_s, false AS kept
    FROM temp.delivered_fed d JOIN temp.merge_contradicted c
      ON d.job_id = c.job_id AND d.gauge IS NOT DISTINCT FROM c.gauge AND list_contains(d.columns, c.name)`);
  await store.run('INSERT INTO temp.overruled BY NAME SELECT * EXCLUDE kept FROM temp.merge_spans');
  return holds(store, 'temp.merge_spans');
}

/** Writes the merged readings in (job, time, gauge) order; undefined where none are left. */
async function writeMerged(store: Store, path: string, values: readonly string[]): Promise<ReadingPart | undefined> {
  const names = [...readings.key, ...values];
  const [counts] = await store.rows<Record<string, number>>(
    `SELECT ${names.map((name) => `count(${identifier(name)}) AS ${identifier(name)}`).join(', ')} FROM temp.merge_joined`,
  );
  const columns = Object.keys(readings.schema.shape).filter((name) => counts[name] > 0);
  if (columns.length === 0) return undefined;
  const list = columns.map(identifier).join(', ');
  await store.run(copyToSegment(`SELECT ${list} FROM temp.merge_joined ORDER BY ${orderFor(columns)}`, path));
  return { path, fileNumber: undefined, columns, rows: counts.job_id };
}

async function holds(store: Store, relation: string): Promise<boolean> {
  return (await store.rows(`SELECT 1 FROM ${relation} LIMIT 1`)).length > 0;
}
