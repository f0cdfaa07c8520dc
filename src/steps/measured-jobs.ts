import { jobFacts } from '../facts/job-facts.ts';
import type { JobRecords } from '../facts/job-material.ts';
import type { Facts } from '../records/tables/facts.ts';
import type { JobCurvePrint } from '../store/curve-prints.ts';
import { segmentSlices } from '../store/segment-slices.ts';
import type { Store } from '../store/store.ts';
import type { SlicedFacts } from './slice-facts.ts';
import { RecordLookup } from './record-lookup.ts';
import { sliceTasks } from './slice-tasks.ts';
import { MeasuredFactsPool } from './measured-facts-pool.ts';

/** A job's facts and what the records tell of it. */
export interface MeasuredJob {
  readonly records: JobRecords;
  readonly facts: Facts;
  /** By what its curves are found again. */
  readonly prints: readonly JobCurvePrint[];
}

/** Readings, or jobs without readings, that are looked at once; memory does not grow with the fleet. */
export const sliceRows = 250_000;
const batchJobs = 2000;

/**
 * Measures the jobs in a temporary table: those with readings by the place of these, then those without. Segments are read
 * and the facts of the readings computed on other threads, some slices ahead of the jobs that are handed out.
 *
 * @param wanted a temporary table with a column `job_id`
 */
export async function* measuredJobs(store: Store, wanted: string): AsyncGenerator<MeasuredJob> {
  const lookup = await RecordLookup.begin(store);
  const slices = await segmentSlices(store, wanted, sliceRows);
  const pool = new MeasuredFactsPool(slices.length < 2 ? 0 : undefined);
  const underWay: { records: readonly JobRecords[]; measured: Promise<SlicedFacts[]> }[] = [];
  async function* done() {
    const first = underWay.shift();
    if (first === undefined) return;
    const measured = await first.measured;
    for (const [index, records] of first.records.entries()) {
      const { facts, prints } = measured[index];
      yield { records, facts: jobFacts(records, facts), prints };
    }
  }
  try {
    for await (const { task, records } of sliceTasks(slices, lookup)) {
      const measured = pool.facts(task);
      // A failure is heard where the facts are awaited.
      measured.catch(() => undefined);
      underWay.push({ records, measured });
      if (underWay.length > pool.ahead) yield* done();
    }
    while (underWay.length > 0) yield* done();
  } finally {
    await pool.end();
  }
  const rest = await store.rows<{ job_id: string }>(
    `SELECT job_id FROM temp.${wanted} ANTI JOIN segment_jobs USING (job_id)`,
  );
  for (let start = 0; start < rest.length; start += batchJobs) {
    const ids = rest.slice(start, start + batchJobs).map((row) => row.job_id);
    for (const records of await lookup.of(ids)) yield { records, facts: jobFacts(records, {}), prints: [] };
  }
}
