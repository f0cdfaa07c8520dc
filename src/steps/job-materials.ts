import type { JobMaterial } from '../facts/job-material.ts';
import { type Gauge, gauges } from '../records/tables/gauges.ts';
import { type Job, jobs } from '../records/tables/jobs.ts';
import { type LineSet, lineSets } from '../records/tables/line-sets.ts';
import { type Weighing, weighings } from '../records/tables/weighings.ts';
import { streamJobReadings } from '../store/job-stream.ts';
import { recordsBy } from '../store/record-lookup.ts';
import type { Store } from '../store/store.ts';

/** Records are looked up for so many jobs at once, so that memory does not grow with the fleet. */
const batchJobs = 2000;

/** Everything known of each job in a temporary table, readings first, jobs without readings last. */
export async function* jobMaterials(store: Store, wanted: string): AsyncGenerator<JobMaterial> {
  const gaugesById = await recordsBy<Gauge>(store, gauges, 'gauge_id');
  const order = await store.rows<{ job_id: string; segment_id: number | null }>(
    `SELECT job_id, segment_id FROM temp.${wanted}`,
  );
  const readings = streamJobReadings(store, wanted);
  for (let start = 0; start < order.length; start += batchJobs) {
    await store.run(
      `CREATE OR REPLACE TEMP TABLE batch AS SELECT job_id FROM temp.${wanted} LIMIT ${batchJobs} OFFSET ${start}`,
    );
    const jobsById = await recordsBy<Job>(store, jobs, 'job_id', 'temp.batch');
    const linesByJob = await recordsBy<LineSet>(store, lineSets, 'job_id', 'temp.batch');
    const weighingsByJob = await recordsBy<Weighing>(store, weighings, 'job_id', 'temp.batch');
    for (const { job_id: jobId, segment_id } of order.slice(start, start + batchJobs)) {
      const log = segment_id === null ? undefined : (await readings.next()).value;
      if (log !== undefined && log.jobId !== jobId)
        throw new TypeError(`readings of ${log.jobId} where those of ${jobId} belong`);
      const job = jobsById.get(jobId)?.[0];
      yield {
        jobId,
        job,
        gauge: job?.gauge_id === undefined ? undefined : gaugesById.get(job.gauge_id)?.[0],
        lineSets: linesByJob.get(jobId) ?? [],
        weighings: weighingsByJob.get(jobId) ?? [],
        series: log?.series ?? [],
        marks: log?.marks ?? [],
      };
    }
  }
}
