import { join } from 'node:path';
import { DryholdError } from '../errors.ts';
import { columnList, identifier, literal, parquetFiles } from './sql.ts';
import { facts } from '../records/tables/facts.ts';
import { findings } from '../records/tables/findings.ts';
import { nextCurve } from './judged-part.ts';
import type { Store } from './store.ts';

/** What is found of jobs, and the order that it is written in. */
const orders = {
  facts: 'job_id',
  findings: 'job_id, check_id',
  curves: 'curve_id',
  curve_words: 'curve_id, at_row, word',
  curve_landmarks: 'curve_id, at_row, cell',
} as const;

type ResultTable = keyof typeof orders;

/** The tables of what is found, each a Parquet file. */
export const resultTables = Object.keys(orders) as readonly ResultTable[];

/** The path of a table in a folder of results. */
function fileOf(folder: string, table: ResultTable): string {
  return join(folder, `${table}.parquet`);
}

/** Writes all that a store's jobs were found to be, before anything is said of others' curves; equal content gives equal bytes. */
export async function writeResults(store: Store, folder: string): Promise<void> {
  for (const table of resultTables)
    await store.run(
      `COPY (FROM ${table} ORDER BY ${orders[table]}) TO ${literal(fileOf(folder, table))} (FORMAT parquet, COMPRESSION zstd)`,
    );
}

/**
 * Takes what was found elsewhere of the jobs in `temp.taken_jobs` (job_id, result: the place of its folder from 0, segment_id and first_row) into the
 * catalogue. Curves are numbered by the place of their readings, as where the jobs are measured here.
 *
 * @param onResult told how many jobs more are taken
 * @throws DryholdError `file-unreadable`
 */
export async function takeResults(
  store: Store,
  folders: readonly string[],
  onResult: (jobs: number) => void,
): Promise<void> {
  const next = await nextCurve(store);
  await store.run('CREATE OR REPLACE TEMP TABLE found_curves (result INTEGER, curve_id BIGINT, job_id VARCHAR)');
  for (const [result, folder] of folders.entries())
    await read(
      store,
      folder,
      `INSERT INTO temp.found_curves SELECT ${result}, curve_id, job_id FROM ${from(folder, 'curves')}`,
    );
  await store.run(`CREATE OR REPLACE TEMP TABLE taken_curves AS
    SELECT result, curve_id, ${next} - 1 + row_number() OVER (ORDER BY t.segment_id, t.first_row, c.curve_id) AS number
    FROM temp.found_curves c JOIN temp.taken_jobs t USING (result, job_id)`);
  for (const [result, folder] of folders.entries()) {
    const [{ jobs }] = await store.rows<{ jobs: number }>(
      `SELECT count(*) AS jobs FROM temp.taken_jobs WHERE result = ${result}`,
    );
    if (jobs === 0) continue;
    for (const table of [facts, findings])
      await read(
        store,
        folder,
        `INSERT INTO ${identifier(table.name)} (${columnList(table)}) SELECT ${columnList(table)} FROM ${from(folder, table.name as ResultTable)}
         WHERE job_id IN (SELECT job_id FROM temp.taken_jobs WHERE result = ${result})`,
      );
    for (const table of ['curves', 'curve_words', 'curve_landmarks'] as const)
      await read(
        store,
        folder,
        `INSERT INTO ${table} BY NAME SELECT k.number AS curve_id, f.* EXCLUDE (curve_id)
         FROM ${from(folder, table)} f JOIN temp.taken_curves k ON k.result = ${result} AND k.curve_id = f.curve_id`,
      );
    onResult(jobs);
  }
}

function from(folder: string, table: ResultTable): string {
  return parquetFiles(fileOf(folder, table));
}

/** Runs a statement that reads a file of a folder. */
async function read(store: Store, folder: string, statement: string): Promise<void> {
  try {
    await store.run(statement);
  } catch (error) {
    if (error instanceof DryholdError) throw error;
    throw new DryholdError(
      'file-unreadable',
      { path: folder, problem: (error as Error).message.split('\n')[0] },
      error,
    );
  }
}
