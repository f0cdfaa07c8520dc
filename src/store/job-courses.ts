import type { JobCourses } from '../fleet/callbacks/follow-up.ts';
import type { Callback } from '../records/tables/callbacks.ts';
import { query } from './sql.ts';
import type { Store } from './store.ts';

/** A callback, and the work that it traces to. */
export interface TracedCallback {
  readonly callbackId: string;
  readonly reportedAt: string;
  /** Days since 1970. */
  readonly day: number;
  readonly systemId: string | null;
  readonly reason: string | null;
  readonly causeFound: string | null;
  readonly refrigerantAddedKg: number | null;
  readonly cost: number | null;
  /** By the job that the source names; by the system; it names neither; or no work on record was done before it. */
  readonly tracedBy: 'job' | 'system' | 'not-named' | 'no-work-before';
  readonly jobId: string | null;
  /** Place of the job among those of the fleet; −1 where it traces to none, or to one that is not judged. */
  readonly place: number;
  /** From the day on which the work was done; null where it traces to none. */
  readonly daysAfter: number | null;
}

/**
 * All callbacks in the order of time, with the work that they trace to; `readFleetJobs` comes first.
 *
 * Leaves the temporary table `circuit_work`.
 */
export async function readTracedCallbacks(store: Store): Promise<TracedCallback[]> {
  await store.run(query('circuit-work'));
  await store.run(query('traced-callbacks'));
  const rows = await store.rows<
    Pick<Callback, 'callback_id' | 'reported_at'> & {
      system_id: string | null;
      reason: string | null;
      cause_found: string | null;
      refrigerant_added_kg: number | null;
      cost: number | null;
      traced_by: TracedCallback['tracedBy'];
      traced_job_id: string | null;
      day: number;
      days_after: number | null;
      place: number;
    }
  >(`SELECT c.*, coalesce(f.rowid, -1)::INTEGER AS place FROM temp.traced_callbacks c
    LEFT JOIN temp.fleet_jobs f ON f.job_id = c.traced_job_id ORDER BY c.rowid`);
  return rows.map((row) => ({
    callbackId: row.callback_id,
    reportedAt: row.reported_at,
    day: row.day,
    systemId: row.system_id,
    reason: row.reason,
    causeFound: row.cause_found,
    refrigerantAddedKg: row.refrigerant_added_kg,
    cost: row.cost,
    tracedBy: row.traced_by,
    jobId: row.traced_job_id,
    place: row.place,
    daysAfter: row.days_after,
  }));
}

/**
 * What came of the jobs of a fleet but for callbacks, by place; `readTracedCallbacks` comes first.
 *
 * @param count how many jobs the fleet has
 */
export async function readJobCourses(
  store: Store,
  count: number,
): Promise<Omit<JobCourses, 'callbackDays' | 'isNamed'>> {
  await store.run(query('job-courses'));
  const courses = {
    isFollowed: new Uint8Array(count),
    doneDays: new Int32Array(count),
    nextDays: new Float64Array(count),
    nextFollowsUp: new Uint8Array(count),
    nextPlaces: new Int32Array(count),
  };
  const result = await store.connection.stream(
    'SELECT is_followed::UTINYINT, done_day, next_day, next_follows_up::UTINYINT, next_place FROM temp.job_courses ORDER BY place',
  );
  let filled = 0;
  for (let chunk = await result.fetchChunk(); chunk !== null && chunk.rowCount > 0; chunk = await result.fetchChunk()) {
    for (const [at, column] of Object.values(courses).entries())
      column.set((chunk.getColumnVector(at) as unknown as { items: Float64Array }).items, filled);
    filled += chunk.rowCount;
  }
  return courses;
}
