import type { JobRecords } from '../facts/job-material.ts';
import { type Cylinder, cylinders } from '../records/tables/cylinders.ts';
import { type Gauge, gauges } from '../records/tables/gauges.ts';
import { type Job, jobs } from '../records/tables/jobs.ts';
import { type LineSet, lineSets } from '../records/tables/line-sets.ts';
import { type Weighing, weighings } from '../records/tables/weighings.ts';
import { recordsBy } from '../store/record-lookup.ts';
import type { Store } from '../store/store.ts';

/** Looks up what the records tell of some jobs at once; gauges and cylinders are read once. */
export class RecordLookup {
  readonly #store: Store;
  readonly #gauges: Map<string, Gauge[]>;
  readonly #cylinders: Map<string, Cylinder[]>;

  private constructor(store: Store, gaugesById: Map<string, Gauge[]>, cylindersById: Map<string, Cylinder[]>) {
    this.#store = store;
    this.#gauges = gaugesById;
    this.#cylinders = cylindersById;
  }

  static async begin(store: Store): Promise<RecordLookup> {
    return new RecordLookup(
      store,
      await recordsBy<Gauge>(store, gauges, 'gauge_id'),
      await recordsBy<Cylinder>(store, cylinders, 'cylinder_id'),
    );
  }

  /** @returns the records in the order of the ids; those of an unknown job are empty */
  async of(jobIds: readonly string[]): Promise<JobRecords[]> {
    const store = this.#store;
    await store.fill('batch', jobIds);
    const jobsById = await recordsBy<Job>(store, jobs, 'job_id', 'temp.batch');
    const linesByJob = await recordsBy<LineSet>(store, lineSets, 'job_id', 'temp.batch');
    const weighingsByJob = await recordsBy<Weighing>(store, weighings, 'job_id', 'temp.batch');
    return jobIds.map((jobId) => {
      const job = jobsById.get(jobId)?.[0];
      return {
        jobId,
        job,
        gauge: job?.gauge_id === undefined ? undefined : this.#gauges.get(job.gauge_id)?.[0],
        lineSets: linesByJob.get(jobId) ?? [],
        weighings: weighingsByJob.get(jobId) ?? [],
        cylinders: (weighingsByJob.get(jobId) ?? []).flatMap(
          ({ cylinder_id: id }) => (id === undefined ? undefined : this.#cylinders.get(id)) ?? [],
        ),
      };
    });
  }
}
