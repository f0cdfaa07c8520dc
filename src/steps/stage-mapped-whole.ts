import { rmSync } from 'node:fs';
import { DateTime } from 'luxon';
import { DryholdError } from '../errors.ts';
import type { LogStarts } from '../sources/log-clock.ts';
import { zoneName } from '../sources/map-time.ts';
import type { Delivery } from '../store/delivery.ts';
import { isBreakdown } from '../store/engine-breakdown.ts';
import { engineEpochS, type MappedRelation } from '../store/mapped-relation.ts';
import { placeAmong } from '../store/place-among.ts';
import { copyToSegment, orderFor } from '../store/reading-part.ts';
import { identifier, parquetFiles } from '../store/sql.ts';
import type { Store } from '../store/store.ts';

/** The beginnings of so many logs are listed in the statement, which leaves the rows in order; more are joined, and sorted again. */
const mostListed = 20_000;

/** Jobs of one file whose logs begin at moments of their own; more are read row by row. */
const mostJobs = 1_000_000;

/**
 * Stages the readings of a mapped file by the engine, columns at a time.
 *
 * @returns the number of rows; undefined, with nothing staged, where only the row-by-row reader can book what is wrong, or
 *   where clocks were changed within the log
 */
export async function stageWhole(
  delivery: Delivery,
  fileNumber: number,
  { select, columns, times }: MappedRelation,
  zone: string,
  starts: LogStarts,
): Promise<number | undefined> {
  if (times === undefined) return delivery.stageReadings(fileNumber, select, columns);
  const raw = delivery.newPartPath();
  let isSparing = false;
  try {
    await delivery.store.run(copyToSegment(select, raw));
    const counted = await fromLogStart(delivery.store, raw, times, zone, starts);
    if (counted === undefined) return undefined;
    const list = columns.map((name) => (name === 'elapsed_s' ? `${counted.elapsed} AS elapsed_s` : identifier(name)));
    const order = counted.isJoined ? `ORDER BY ${orderFor(columns)}` : '';
    // What is sorted whole is written to disk sooner, and leaves room.
    if (counted.isJoined) {
      isSparing = true;
      await delivery.store.holdInMemory('spare');
    }
    const rows = await delivery.stageReadings(
      fileNumber,
      `SELECT ${list.join(', ')} FROM ${counted.from} ${order}`,
      columns,
    );
    if (rows !== undefined) for (const [job, startS] of counted.begun) starts.set(job, times, startS);
    return rows;
  } catch (error) {
    if (error instanceof DryholdError || isBreakdown(error)) throw error;
    // A value that the engine cannot read: the row-by-row reader says which.
    return undefined;
  } finally {
    if (isSparing) await delivery.store.holdInMemory('usual');
    rmSync(raw, { force: true });
  }
}

/** How the times of a written select become seconds since their logs began. */
interface Counted {
  readonly elapsed: string;
  readonly from: string;
  /** Whether the beginnings were joined, which leaves the rows in no order. */
  readonly isJoined: boolean;
  /** Jobs whose log's beginning was not known before [s since the origin]. */
  readonly begun: ReadonlyMap<string, number>;
}

/** Differences of large numbers of seconds, to the microsecond, as the row-by-row reader has them. */
function rounded(sql: string): string {
  return `floor((${sql}) * 1e6 + 0.5) / 1e6`;
}

async function fromLogStart(
  store: Store,
  raw: string,
  times: 'midnight' | 'epoch',
  zone: string,
  starts: LogStarts,
): Promise<Counted | undefined> {
  const file = parquetFiles(raw);
  const jobs = await store.rows<{ job_id: string; first_s: number }>(
    `SELECT job_id, arg_min(elapsed_s, file_row_number) AS first_s
     FROM ${parquetFiles(raw, 'file_row_number = true')} GROUP BY job_id LIMIT ${mostJobs + 1}`,
  );
  if (jobs.length === 0 || jobs.length > mostJobs) return undefined;
  if (times === 'midnight') return jobs.length === 1 ? fromClock(file, jobs[0], starts) : undefined;
  const [{ least_s, most_s }] = await store.rows<{ least_s: number; most_s: number }>(
    `SELECT min(elapsed_s) AS least_s, max(elapsed_s) AS most_s FROM ${file}`,
  );
  const offset = steadyOffset(zone, engineEpochS + least_s, engineEpochS + most_s);
  if (offset === undefined) return undefined;
  const begun = new Map<string, number>();
  const firsts = jobs.map(({ job_id, first_s }): [string, number] => {
    const known = starts.get(job_id, times);
    if (known === undefined) begun.set(job_id, engineEpochS + first_s - offset);
    return [job_id, known === undefined ? first_s : known + offset - engineEpochS];
  });
  if (jobs.length <= mostListed) {
    const place = placeAmong(
      'job_id',
      jobs.map(({ job_id }) => job_id),
    );
    const list = firsts.map(([, first]) => first).join(', ');
    const first = jobs.length === 1 ? list : `list_extract([${list}]::DOUBLE[], (${place})::BIGINT)`;
    return { elapsed: rounded(`elapsed_s - ${first}`), from: file, isJoined: false, begun };
  }
  await store.fillRows('log_firsts', { job_id: 'VARCHAR', first_s: 'DOUBLE' }, firsts);
  return {
    elapsed: rounded('elapsed_s - first_s'),
    from: `${file} JOIN temp.log_firsts USING (job_id)`,
    isJoined: true,
    begun,
  };
}

/** Times of day of one job: on across midnight, within the file and since another one. */
function fromClock(file: string, { job_id, first_s }: { job_id: string; first_s: number }, starts: LogStarts): Counted {
  const known = starts.get(job_id, 'midnight');
  const passed = known !== undefined && first_s < known - 43_200 ? 1 : 0;
  const days = 'sum(CASE WHEN elapsed_s < before_s - 43200 THEN 1 ELSE 0 END) OVER (ROWS UNBOUNDED PRECEDING)';
  return {
    elapsed: rounded(`(days + ${passed}) * 86400 + elapsed_s - ${known ?? first_s}`),
    from: `(SELECT *, ${days} AS days FROM (SELECT *, lag(elapsed_s) OVER () AS before_s FROM ${file}))`,
    isJoined: false,
    begun: known === undefined ? new Map([[job_id, first_s]]) : new Map(),
  };
}

/** Clocks that may have been changed are looked at so often [s]. */
const lookS = 6 * 3600;

/** What the clocks of a zone are ahead of UTC [s] all the time between two moments on them, or undefined where that changes. */
function steadyOffset(zone: string, fromS: number, toS: number): number | undefined {
  const offsetAt = (seconds: number) => DateTime.fromSeconds(seconds, { zone: zoneName(zone) }).offset * 60;
  if (toS - fromS > 400 * 86_400) return undefined;
  // An hour that clocks show twice begins a day before at the earliest.
  const first = offsetAt(fromS - 86_400);
  for (let at = fromS - 86_400; at < toS + 86_400 + lookS; at += lookS) if (offsetAt(at) !== first) return undefined;
  return first;
}
