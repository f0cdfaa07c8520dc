import { columnsOf } from '../records/table.ts';
import { readings } from '../records/tables/readings.ts';
import type { DeliveredFile } from './delivered-file.ts';
import { newSegment } from './new-segment.ts';
import type { ReadingPart } from './reading-part.ts';
import { identifier, literal, sqlType } from './sql.ts';
import { wholeLineRepeated } from './publish-rows.ts';
import { stagingName } from './stage-rows.ts';
import type { Store } from './store.ts';

/**
 * Makes staged parts segments of the store, within the caller's transaction: a job that the store has with the same
 * readings is counted as repeated; one with other readings is replaced whole.
 *
 * @param published receives each file that becomes a segment, at once, so that a failure later on can take it back
 * @returns the jobs whose readings changed
 */
export async function publishReadings(
  store: Store,
  parts: readonly ReadingPart[],
  files: readonly DeliveredFile[],
  published: string[],
): Promise<string[]> {
  const changed: string[] = [];
  for (const part of parts) {
    await store.run(`CREATE OR REPLACE TEMP TABLE part_jobs AS ${jobListing(part)}`);
    await findRepeatedJobs(store, part);
    await bookRepeated(store, part, files);
    const fresh = await store.rows<{ job_id: string }>(
      'SELECT job_id FROM temp.part_jobs ANTI JOIN temp.repeated_jobs USING (job_id)',
    );
    if (fresh.length === 0) continue;
    await publishSegment(store, part, published);
    for (const { job_id } of fresh) changed.push(job_id);
  }
  return changed;
}

/** A select that lists the jobs of a segment file with the place of their rows. */
export function jobListing(part: Pick<ReadingPart, 'path' | 'columns'>): string {
  const has = (column: string) => part.columns.includes(column);
  return `SELECT job_id, min(file_row_number) AS first_row, count(*) AS rows,
      ${has('gauge') ? "count(DISTINCT coalesce(gauge, ''))" : '1'}::INTEGER AS gauges,
      ${has('phase_mark') ? 'count(phase_mark)' : '0'} AS marks
    FROM read_parquet(${literal(part.path)}, file_row_number = true) GROUP BY job_id`;
}

/** Registers a segment file and lists its jobs, those in `temp.repeated_jobs` as superseded. */
async function publishSegment(store: Store, part: ReadingPart, published: string[]): Promise<void> {
  const { id, file, path } = await newSegment(store, part.path);
  published.push(path);
  await store.run(
    `INSERT INTO segments SELECT ${id}, ${literal(file)}, sum(rows), [${part.columns.map(literal).join(', ')}] FROM temp.part_jobs`,
  );
  await store.run(
    'INSERT INTO superseded_jobs SELECT segment_id, job_id FROM segment_jobs SEMI JOIN (FROM temp.part_jobs ANTI JOIN temp.repeated_jobs USING (job_id)) USING (job_id)',
  );
  await store.run(`INSERT INTO superseded_jobs SELECT ${id}, job_id FROM temp.repeated_jobs`);
  await store.run(
    'DELETE FROM segment_jobs WHERE job_id IN (SELECT job_id FROM temp.part_jobs ANTI JOIN temp.repeated_jobs USING (job_id))',
  );
  await store.run(
    `INSERT INTO segment_jobs SELECT job_id, ${id}, first_row, rows, gauges, marks FROM temp.part_jobs ANTI JOIN temp.repeated_jobs USING (job_id)`,
  );
}

/** Lists in `temp.repeated_jobs` the jobs of a part that the store already has with the very same readings. */
async function findRepeatedJobs(store: Store, part: ReadingPart): Promise<void> {
  const known = await store.rows('SELECT 1 FROM temp.part_jobs SEMI JOIN segment_jobs USING (job_id) LIMIT 1');
  if (known.length === 0) {
    await store.run('CREATE OR REPLACE TEMP TABLE repeated_jobs (job_id VARCHAR)');
    return;
  }
  const digest = (relation: string, columns: readonly string[]) =>
    `SELECT job_id, count(*) AS rows, bit_xor(hash(${columnsOf(readings)
      .map((column) => (columns.includes(column.name) ? identifier(column.name) : `NULL::${sqlType(column)}`))
      .join(', ')})) AS digest
     FROM ${relation} WHERE job_id IN (SELECT job_id FROM temp.part_jobs SEMI JOIN segment_jobs USING (job_id)) GROUP BY job_id`;
  const all = columnsOf(readings).map((column) => column.name);
  await store.run(`CREATE OR REPLACE TEMP TABLE repeated_jobs AS
    SELECT job_id FROM (${digest(`read_parquet(${literal(part.path)})`, part.columns)}) new
    JOIN (${digest('readings', all)}) old USING (job_id, rows, digest)`);
}

async function bookRepeated(store: Store, part: ReadingPart, files: readonly DeliveredFile[]): Promise<void> {
  const counted =
    part.fileNumber === undefined
      ? `SELECT _file, count(*) AS n FROM (
           SELECT _file FROM temp.${stagingName(readings)} r LEFT JOIN temp.repeated_jobs j USING (job_id) GROUP BY _file, _line
           HAVING ${wholeLineRepeated('j.job_id IS NOT NULL')}) GROUP BY _file`
      : `SELECT ${part.fileNumber} AS _file, coalesce(sum(rows), 0) AS n FROM temp.part_jobs SEMI JOIN temp.repeated_jobs USING (job_id)`;
  for (const { _file, n } of await store.rows<{ _file: number; n: number }>(counted)) files[_file].rowsRepeated += n;
}
