import { rmSync } from 'node:fs';
import { DateTime } from 'luxon';
import type { LogStarts } from '../sources/log-clock.ts';
import { zoneName } from '../sources/map-time.ts';
import type { Delivery } from '../store/delivery.ts';
import { engineEpochS, type MappedRelation } from '../store/mapped-relation.ts';
import { placeAmong } from '../store/place-among.ts';
import { copyToSegment } from '../store/reading-part.ts';
import { identifier, literal } from '../store/sql.ts';

/** Jobs of one file whose logs begin at moments of their own; more are read row by row. */
const mostJobs = 5000;

/**
 * Stages the readings of a mapped file by the engine, columns at a time.
 *
 * @returns the number of rows and the jobs they belong to; undefined, with nothing staged, where only the row-by-row reader can book what is wrong, or
 *   where clocks were changed within the log
 */
export async function stageWhole(
  delivery: Delivery,
  fileNumber: number,
  { select, columns, times }: MappedRelation,
  zone: string,
  starts: LogStarts,
): Promise<{ rows: number; names: string[] } | undefined> {
  if (times === undefined) return counted(delivery, await delivery.stageReadings(fileNumber, select, columns));
  const raw = delivery.newPartPath();
  try {
    await delivery.store.run(copyToSegment(select, raw));
    const shifted = await fromLogStart(delivery, raw, times, zone, starts);
    if (shifted === undefined) return undefined;
    const others = columns.filter((name) => name !== 'elapsed_s').map((name) => identifier(name));
    const ordered = `SELECT job_id, ${shifted.elapsed} AS elapsed_s${others
      .filter((name) => name !== 'job_id')
      .map((name) => `, ${name}`)
      .join('')}
      FROM ${shifted.from}`;
    const rows = await delivery.stageReadings(fileNumber, ordered, columns);
    if (rows !== undefined) for (const [job, startS] of shifted.begun) starts.set(job, times, startS);
    return await counted(delivery, rows);
  } catch {
    // A value that the engine cannot read: the row-by-row reader says which.
    return undefined;
  } finally {
    rmSync(raw, { force: true });
  }
}

/** The rows and the jobs of the part that was staged last. */
async function counted(
  delivery: Delivery,
  rows: number | undefined,
): Promise<{ rows: number; names: string[] } | undefined> {
  return rows === undefined ? undefined : { rows, names: await delivery.jobsOfLastPart() };
}

interface Counted {
  readonly elapsed: string;
  readonly from: string;
  /** Jobs whose log's beginning was not known before [s since the origin]. */
  readonly begun: ReadonlyMap<string, number>;
}

async function fromLogStart(
  delivery: Delivery,
  raw: string,
  times: 'midnight' | 'epoch',
  zone: string,
  starts: LogStarts,
): Promise<Counted | undefined> {
  const file = `read_parquet(${literal(raw)}, file_row_number = true)`;
  const jobs = await delivery.store.rows<{ job_id: string; first_s: number; least_s: number; most_s: number }>(
    `SELECT job_id, arg_min(elapsed_s, file_row_number) AS first_s, min(elapsed_s) AS least_s, max(elapsed_s) AS most_s
     FROM ${file} GROUP BY job_id LIMIT ${mostJobs + 1}`,
  );
  if (jobs.length > mostJobs) return undefined;
  const rounded = (sql: string) => `floor((${sql}) * 1e6 + 0.5) / 1e6`;
  if (times === 'midnight') {
    if (jobs.length !== 1) return undefined;
    const days = 'sum(CASE WHEN elapsed_s < before_s - 43200 THEN 1 ELSE 0 END) OVER (ROWS UNBOUNDED PRECEDING)';
    const from = `(SELECT *, ${days} AS days FROM (SELECT *, lag(elapsed_s) OVER () AS before_s FROM read_parquet(${literal(raw)})))`;
    const [{ job_id, first_s }] = jobs;
    const known = starts.get(job_id, times);
    const begun = known === undefined ? new Map([[job_id, first_s]]) : new Map<string, number>();
    const passed = known !== undefined && first_s < known - 43_200 ? 1 : 0;
    return { elapsed: rounded(`(days + ${passed}) * 86400 + elapsed_s - ${known ?? first_s}`), from, begun };
  }
  const offset = steadyOffset(
    zone,
    Math.min(...jobs.map((job) => job.least_s)),
    Math.max(...jobs.map((job) => job.most_s)),
  );
  if (offset === undefined) return undefined;
  const begun = new Map<string, number>();
  const firsts = jobs.map(({ job_id, first_s }) => {
    const known = starts.get(job_id, times);
    if (known === undefined) begun.set(job_id, engineEpochS + first_s - offset);
    return known === undefined ? first_s : known + offset - engineEpochS;
  });
  const first =
    jobs.length === 1
      ? String(firsts[0])
      : `list_extract([${firsts.join(', ')}]::DOUBLE[], (${placeAmong(
          'job_id',
          jobs.map(({ job_id }) => job_id),
        )})::BIGINT)`;
  return { elapsed: rounded(`elapsed_s - ${first}`), from: `read_parquet(${literal(raw)})`, begun };
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
