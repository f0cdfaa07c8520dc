import type { JobRecords } from '../../facts/job-material.ts';
import { type Facts, facts as factsTable } from '../../records/tables/facts.ts';
import { type Job, jobs as jobsTable } from '../../records/tables/jobs.ts';
import { recordsBy } from '../../store/record-lookup.ts';
import { type SegmentSlice, segmentSlices } from '../../store/segment-slices.ts';
import type { Store } from '../../store/store.ts';
import { RecordLookup } from '../record-lookup.ts';
import type { PartTask } from './part-messages.ts';

/** Values that are looked at once, rows times columns; memory does not grow with the fleet. */
export const sliceCells = 3_000_000;
/**
 * Jobs of a part, but for those of its last slice. At most, so that memory does not grow; at least, since to write two hundred columns
 * costs the same for few jobs; else so many that all threads have something to do until the end.
 */
const mostJobs = 500;
const fewestJobs = 100;
const parts = 8;

/** A task but for where it goes. */
export type PlacelessTask = Omit<PartTask, 'folder'>;

/** How many jobs a task is about. */
export function jobsOf({ slices, unread, standing }: PlacelessTask): number {
  return slices.reduce((sum, { records }) => sum + records.length, unread.length + standing.length);
}

/**
 * The jobs of `temp.jobs_to_measure` in parts: those with readings by the place of these, then those without.
 */
export async function* tasksToMeasure(store: Store): AsyncGenerator<PlacelessTask> {
  const lookup = await RecordLookup.begin(store);
  const [{ jobs }] = await store.rows<{ jobs: number }>('SELECT count(*) AS jobs FROM temp.jobs_to_measure');
  for await (const batch of batches(segmentSlices(store, 'jobs_to_measure', sliceCells), jobs)) {
    const known = await lookup.of(batch.flatMap((slice) => slice.jobs.map((job) => job.jobId)));
    const slices = batch.map((slice) => ({ slice, records: known.splice(0, slice.jobs.length) }));
    yield { slices, unread: [], standing: [] };
  }
  const rest = await store.rows<{ job_id: string }>(
    'SELECT job_id FROM temp.jobs_to_measure ANTI JOIN segment_jobs USING (job_id)',
  );
  for (let start = 0; start < rest.length; start += mostJobs) {
    const unread: JobRecords[] = await lookup.of(rest.slice(start, start + mostJobs).map((row) => row.job_id));
    yield { slices: [], unread, standing: [] };
  }
}

/** The jobs of `temp.standing_jobs` in parts, with the facts that stand. */
export async function* standingTasks(store: Store): AsyncGenerator<PlacelessTask> {
  const [{ count }] = await store.rows<{ count: number }>('SELECT count(*) AS count FROM temp.standing_jobs');
  for (let start = 0; start < count; start += mostJobs) {
    await store.run(
      `CREATE OR REPLACE TEMP TABLE batch AS SELECT job_id FROM temp.standing_jobs LIMIT ${mostJobs} OFFSET ${start}`,
    );
    const factsByJob = await recordsBy<Facts>(store, factsTable, 'job_id', 'temp.batch');
    const jobsById = await recordsBy<Job>(store, jobsTable, 'job_id', 'temp.batch');
    const standing = [...factsByJob].map(([jobId, [facts]]) => ({ facts, job: jobsById.get(jobId)?.[0] }));
    yield { slices: [], unread: [], standing };
  }
}

/** Slices together of about as many jobs as a part has, of `all` together. */
async function* batches(slices: AsyncIterable<SegmentSlice>, all: number): AsyncGenerator<SegmentSlice[]> {
  const most = Math.max(fewestJobs, Math.min(mostJobs, Math.ceil(all / parts)));
  let batch: SegmentSlice[] = [];
  let jobs = 0;
  for await (const slice of slices) {
    batch.push(slice);
    jobs += slice.jobs.length;
    if (jobs < most) continue;
    yield batch;
    batch = [];
    jobs = 0;
  }
  if (batch.length > 0) yield batch;
}
