import { readings } from '../records/tables/readings.ts';
import type { DeliveredReadings } from './delivered-readings.ts';
import { concernsKnown, gaugeListing, listFed, type Overruled, recordMerged, recordNew } from './fed-readings.ts';
import { type MergedJobs, mergeKnownJobs } from './merge-known-jobs.ts';
import { newSegment } from './new-segment.ts';
import { bookRepeatedLines, rejectContradicting } from './publish-rows.ts';
import type { ReadingPart } from './reading-part.ts';
import { literal } from './sql.ts';
import type { Store } from './store.ts';

/**
 * Writes the merged readings of the jobs that the store has, before the transaction that makes them known: within one,
 * a temporary table that was replaced keeps its memory to the end. Only temporary tables and new files change.
 *
 * @returns what was merged, or undefined where nothing of the delivery is known
 */
export async function prepareReadings(store: Store, delivered: DeliveredReadings): Promise<MergedJobs | undefined> {
  const { parts, files } = delivered;
  if (files.length === 0) return undefined;
  await listGauges(store, parts);
  await requireApart(store);
  if (!(await concernsKnown(store, files))) return undefined;
  await listFed(store, files, isMixed(parts));
  return mergeKnownJobs(store, delivered);
}

/**
 * Takes the prepared readings of a delivery into the store, within the caller's transaction. A part with jobs that the
 * store does not have becomes a segment as it is; the merged readings of known jobs become segments of their own. Rows
 * that say nothing new are counted as repeated.
 *
 * @param published receives each file that becomes a segment, at once, so that a failure later on can take it back
 * @returns the jobs whose readings changed, and the files whose readings gave way
 */
export async function publishReadings(
  store: Store,
  { parts, files, staged }: DeliveredReadings,
  merged: MergedJobs | undefined,
  published: string[],
): Promise<{ changed: string[]; overruled: Overruled[] }> {
  if (files.length === 0) return { changed: [], overruled: [] };
  const changed = [...(merged?.changed ?? [])];
  if (changed.length > 0) await forgetSegments(store, changed);
  for (const part of merged?.parts ?? []) {
    await store.run(`CREATE OR REPLACE TEMP TABLE part_jobs AS ${jobListing(part)}`);
    await publishSegment(store, part, published);
  }
  for (const [number, part] of parts.entries()) {
    await store.run(
      `CREATE OR REPLACE TEMP TABLE part_jobs AS ${jobsOf(`FROM temp.delivered_gauges WHERE part = ${number}`)}`,
    );
    const fresh = await store.rows<{ job_id: string }>(
      'SELECT job_id FROM temp.part_jobs ANTI JOIN segment_jobs USING (job_id)',
    );
    for (const { job_id } of fresh) changed.push(job_id);
    if (fresh.length > 0) await publishSegment(store, part, published);
  }
  if (staged) await rejectContradicting(store, files, readings);
  if (merged === undefined) {
    await recordNew(store, files, isMixed(parts));
    return { changed, overruled: [] };
  }
  if (staged) await bookRepeatedLines(store, files, readings);
  const overruled = await recordMerged(store, files);
  return { changed, overruled };
}

/** Parts of one delivery have no job in common: of two only one would become known. */
async function requireApart(store: Store): Promise<void> {
  const [shared] = await store.rows(
    'SELECT job_id FROM temp.delivered_gauges GROUP BY job_id HAVING count(DISTINCT part) > 1 LIMIT 1',
  );
  if (shared !== undefined)
    throw new TypeError(`two parts of a delivery hold readings of job ${String(shared.job_id)}`);
}

/** Whether a part has rows of several files. */
function isMixed(parts: readonly ReadingPart[]): boolean {
  return parts.some((part) => part.fileNumber === undefined);
}

/** Notes that the segments that hold these jobs do so no longer. */
async function forgetSegments(store: Store, jobs: readonly string[]): Promise<void> {
  await store.fill('moved_jobs', jobs);
  await store.run(
    'INSERT INTO superseded_jobs SELECT segment_id, job_id FROM segment_jobs SEMI JOIN temp.moved_jobs USING (job_id)',
  );
  await store.run('DELETE FROM segment_jobs WHERE job_id IN (SELECT job_id FROM temp.moved_jobs)');
}

/** Lists in `temp.delivered_gauges` the gauges of each job of the parts, with the part's number and its file's. */
async function listGauges(store: Store, parts: readonly ReadingPart[]): Promise<void> {
  const listings = parts.map(
    (part, number) =>
      `SELECT ${number} AS part, ${part.fileNumber ?? 'NULL::INTEGER'} AS _file, * FROM (${gaugeListing(part)})`,
  );
  const none = `SELECT NULL::INTEGER AS part, NULL::INTEGER AS _file, NULL::VARCHAR AS job_id, NULL::VARCHAR AS gauge, NULL::BIGINT AS first_row,
    NULL::BIGINT AS rows, NULL::BIGINT AS marks, NULL::VARCHAR[] AS columns, NULL::DOUBLE AS from_s, NULL::DOUBLE AS to_s WHERE false`;
  await store.run(
    `CREATE OR REPLACE TEMP TABLE delivered_gauges AS ${listings.length > 0 ? listings.join(' UNION ALL ') : none}`,
  );
}

/** A select that lists the jobs of a segment file with the place of their rows. */
export function jobListing(part: Pick<ReadingPart, 'path' | 'columns'>): string {
  return jobsOf(`FROM (${gaugeListing(part)})`);
}

function jobsOf(gauges: string): string {
  return `SELECT job_id, min(first_row) AS first_row, sum(rows)::BIGINT AS rows, count(*)::INTEGER AS gauges, sum(marks)::BIGINT AS marks
    ${gauges} GROUP BY job_id`;
}

/** Registers a segment file and lists its jobs, those that the store has in another segment as superseded. */
async function publishSegment(store: Store, part: ReadingPart, published: string[]): Promise<void> {
  const { id, file, path } = await newSegment(store, part.path);
  published.push(path);
  await store.run(
    `INSERT INTO segments SELECT ${id}, ${literal(file)}, sum(rows), [${part.columns.map(literal).join(', ')}] FROM temp.part_jobs`,
  );
  await store.run(
    `INSERT INTO superseded_jobs SELECT ${id}, job_id FROM temp.part_jobs SEMI JOIN segment_jobs USING (job_id)`,
  );
  await store.run(
    `INSERT INTO segment_jobs SELECT job_id, ${id}, first_row, rows, gauges, marks FROM temp.part_jobs ANTI JOIN segment_jobs USING (job_id)`,
  );
}
