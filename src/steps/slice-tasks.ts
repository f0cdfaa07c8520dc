import { type JobRecords, measuredJobColumns, type MeasuredRecords } from '../facts/job-material.ts';
import type { SegmentSlice } from '../store/segment-slices.ts';
import type { RecordLookup } from './record-lookup.ts';
import type { SliceTask } from './slice-facts.ts';

/** A slice of readings to be measured, and all that the records tell of its jobs. */
export interface RecordedTask {
  readonly task: SliceTask;
  readonly records: readonly JobRecords[];
}

/** Jobs whose records are looked up together: it costs nearly the same for one as for thousands. */
const batchJobs = 2000;

/** Slices with the records of their jobs, in their order. */
export async function* sliceTasks(slices: readonly SegmentSlice[], lookup: RecordLookup): AsyncGenerator<RecordedTask> {
  for (const batch of batches(slices)) {
    const known = await lookup.of(batch.flatMap((slice) => slice.jobs.map((job) => job.jobId)));
    for (const slice of batch) {
      const records = known.splice(0, slice.jobs.length);
      yield { task: { slice, records: records.map(neededRecords) }, records };
    }
  }
}

/** Slices together of about `batchJobs` jobs. */
function* batches(slices: readonly SegmentSlice[]): Generator<SegmentSlice[]> {
  let batch: SegmentSlice[] = [];
  let jobs = 0;
  for (const slice of slices) {
    batch.push(slice);
    jobs += slice.jobs.length;
    if (jobs < batchJobs) continue;
    yield batch;
    batch = [];
    jobs = 0;
  }
  if (batch.length > 0) yield batch;
}

/** What a thread needs of the records. */
function neededRecords({ job, gauge, lineSets }: JobRecords): MeasuredRecords {
  if (job === undefined) return { gauge };
  const needed: Record<string, unknown> = {};
  for (const column of measuredJobColumns) if (job[column] !== undefined) needed[column] = job[column];
  return { job: needed, gauge, lineSets };
}
