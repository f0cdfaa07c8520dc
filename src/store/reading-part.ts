import { renameSync, rmSync } from 'node:fs';
import { columnsOf } from '../records/table.ts';
import { readings } from '../records/tables/readings.ts';
import type { DeliveredFile } from './delivered-file.ts';
import { joinedRows, rankStagedRows } from './publish-rows.ts';
import { wrongText } from './reading-relation.ts';
import { identifier, literal, parquetFiles } from './sql.ts';
import { stagingName } from './stage-rows.ts';
import type { Store } from './store.ts';

/** A Parquet file of readings in (job, time) order that is not yet known to the store. */
export interface ReadingPart {
  readonly path: string;
  /** The delivery's file it came from; undefined where the row-by-row reader mixed several. */
  readonly fileNumber: number | undefined;
  /** Whether its rows were staged one by one, so that they are booked by their lines. */
  readonly byLine?: boolean;
  /** The columns that hold anything. */
  readonly columns: readonly string[];
  readonly rows: number;
}

/**
 * A statement that writes a select into a segment file; gives the number of rows. The newer encodings take a third off the file and a
 * fifth off reading it.
 */
export function copyToSegment(select: string, path: string): string {
  return `COPY (${select}) TO ${literal(path)} (FORMAT parquet, COMPRESSION zstd, PARQUET_VERSION v2)`;
}

/** The order of readings within a segment. */
const readingOrder = 'job_id, elapsed_s, gauge';

/**
 * Writes a select over readings into a file, and again in order where it was not.
 *
 * @returns the part, or undefined (and no file) where a reading stands twice or a text is one that the row-by-row reader
 *   trims or refuses
 */
export async function writePart(
  store: Store,
  select: string,
  part: Omit<ReadingPart, 'rows'>,
): Promise<ReadingPart | undefined> {
  try {
    await store.run(copyToSegment(select, part.path));
    let order = await orderOf(store, part);
    if (!order.sorted) {
      const sorted = `${part.path}.sorted`;
      await store.run(
        copyToSegment(`SELECT * FROM ${parquetFiles(part.path)} ORDER BY ${orderFor(part.columns)}`, sorted),
      );
      renameSync(sorted, part.path);
      order = await orderOf(store, part);
    }
    if (!order.repeats && !(await hasWrongTexts(store, part))) return { ...part, rows: order.rows };
    rmSync(part.path, { force: true });
    return undefined;
  } catch (error) {
    rmSync(part.path, { force: true });
    rmSync(`${part.path}.sorted`, { force: true });
    throw error;
  }
}

/** Gauges of one moment stand in their order, none last: only so do repeated readings stand together. */
const backInGauges = `OR elapsed_s = before_s AND (gauge < before_gauge OR (gauge IS NOT NULL AND before_gauge IS NULL))`;

/** Whether a part is in (job, time) order, each job's rows together, and whether a reading stands twice in it. */
async function orderOf(
  store: Store,
  part: Omit<ReadingPart, 'rows'>,
): Promise<{ rows: number; sorted: boolean; repeats: boolean }> {
  const gauge = part.columns.includes('gauge');
  const [lag] = await store.rows<{ n: number; back: number; again: number; runs: number }>(`
    SELECT count(*) AS n, count(*) FILTER (job_id = before_job AND (elapsed_s < before_s ${gauge ? backInGauges : ''})) AS back,
      count(*) FILTER (job_id = before_job AND elapsed_s = before_s ${gauge ? 'AND gauge IS NOT DISTINCT FROM before_gauge' : ''}) AS again,
      count(*) FILTER (job_id IS DISTINCT FROM before_job) AS runs
    FROM (SELECT job_id, elapsed_s, lag(job_id) OVER () AS before_job, lag(elapsed_s) OVER () AS before_s
      ${gauge ? ', gauge, lag(gauge) OVER () AS before_gauge' : ''} FROM ${parquetFiles(part.path)})`);
  const [{ jobs }] = await store.rows<{ jobs: number }>(
    `SELECT count(DISTINCT job_id) AS jobs FROM ${parquetFiles(part.path)}`,
  );
  return { rows: lag.n, sorted: lag.back === 0 && lag.runs === jobs, repeats: lag.again > 0 };
}

async function hasWrongTexts(store: Store, part: Omit<ReadingPart, 'rows'>): Promise<boolean> {
  for (const column of columnsOf(readings)) {
    if (column.kind !== 'text' || !part.columns.includes(column.name)) continue;
    const wrong = await store.rows(
      `SELECT 1 FROM (SELECT DISTINCT ${identifier(column.name)} FROM ${parquetFiles(part.path)}) WHERE ${wrongText(column.name)} LIMIT 1`,
    );
    if (wrong.length > 0) return true;
  }
  return false;
}

/** The parts that share a job with another part, or with the rows staged one by one. */
export async function entangledParts(
  store: Store,
  parts: readonly ReadingPart[],
  staged: boolean,
): Promise<ReadingPart[]> {
  if (parts.length + (staged ? 1 : 0) < 2) return [];
  const jobs = parts.map((part, index) => `SELECT DISTINCT job_id, ${index} AS part FROM ${parquetFiles(part.path)}`);
  if (staged) jobs.push(`SELECT DISTINCT job_id, -1 FROM temp.${stagingName(readings)}`);
  const shared = await store.rows<{ part: number }>(`WITH of_parts AS (${jobs.join(' UNION ALL ')})
    SELECT DISTINCT part FROM of_parts WHERE part >= 0 AND job_id IN (SELECT job_id FROM of_parts GROUP BY job_id HAVING count(*) > 1)`);
  return shared.map(({ part }) => parts[part]);
}

/** Sorts out the readings that were staged one by one: repeated and contradicting ones are counted, the rest become a part. */
export async function sortedOut(store: Store, files: readonly DeliveredFile[], path: string): Promise<ReadingPart[]> {
  await rankStagedRows(store, files, readings);
  const staged = `temp.${stagingName(readings)}`;
  const names = Object.keys(readings.schema.shape);
  const [counts] = await store.rows<Record<string, number>>(
    `SELECT ${names.map((name) => `count(${identifier(name)}) AS ${identifier(name)}`).join(', ')}, count(*) FILTER (_nth = 0) AS joined,
       (SELECT min(_file) FROM ${staged}) AS first_file, (SELECT max(_file) FROM ${staged}) AS last_file
     FROM ${staged} WHERE _nth <= 1`,
  );
  const columns = names.filter((name) => counts[name] > 0);
  if (columns.length === 0) return [];
  const rows = counts.joined > 0 ? `(${joinedRows(readings)})` : `${staged} WHERE _nth = 1`;
  const list = columns.map((name) => identifier(name)).join(', ');
  await store.run(copyToSegment(`SELECT ${list} FROM ${rows} ORDER BY ${orderFor(columns)}`, path));
  const fileNumber = counts.first_file === counts.last_file ? counts.first_file : undefined;
  return [{ path, fileNumber, byLine: true, columns, rows: counts.job_id - counts.joined }];
}

/** The order of readings, by the columns that there are. */
export function orderFor(columns: readonly string[]): string {
  return columns.includes('gauge') ? readingOrder : 'job_id, elapsed_s';
}
