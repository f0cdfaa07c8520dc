import type { Gauge } from '../records/tables/gauges.ts';
import type { Job } from '../records/tables/jobs.ts';
import type { LineSet } from '../records/tables/line-sets.ts';
import type { Weighing } from '../records/tables/weighings.ts';
import type { PhaseMark, VacuumSeries } from '../traces/vacuum-series.ts';

/** What of the records the facts of a vacuum log rest on; plain data, so that it can go to another thread. */
export interface VacuumRecords {
  /** Absent where readings came in for a job that no record tells of. */
  readonly job?: Pick<Job, 'gauge_id' | 'vacuum_target_pa' | 'gauge_accuracy_ratio'>;
  /** The gauge that the record names, where the gauges table has it. */
  readonly gauge?: Gauge;
}

/** What the facts of a vacuum log rest on. */
export interface VacuumMaterial extends VacuumRecords {
  readonly series: readonly VacuumSeries[];
  readonly marks: readonly PhaseMark[];
}

/** All that the records tell of one job. */
export interface JobRecords extends VacuumRecords {
  readonly jobId: string;
  readonly job?: Job;
  readonly lineSets: readonly LineSet[];
  readonly weighings: readonly Weighing[];
}
