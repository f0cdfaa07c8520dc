import type { Gauge } from '../records/tables/gauges.ts';
import type { Job } from '../records/tables/jobs.ts';
import type { LineSet } from '../records/tables/line-sets.ts';
import type { Weighing } from '../records/tables/weighings.ts';
import type { PhaseMark, VacuumSeries } from '../traces/vacuum-series.ts';

/** What the facts of a vacuum log rest on; plain data, so that it can go to another thread. */
export interface VacuumMaterial {
  /** Absent where readings came in for a job that no record tells of. */
  readonly job?: Pick<Job, 'gauge_id' | 'vacuum_target_pa' | 'gauge_accuracy_ratio'>;
  /** The gauge that the record names, where the gauges table has it. */
  readonly gauge?: Gauge;
  readonly series: readonly VacuumSeries[];
  readonly marks: readonly PhaseMark[];
}

/** All that is known of one job before anything is computed. */
export interface JobMaterial extends VacuumMaterial {
  readonly jobId: string;
  readonly job?: Job;
  readonly lineSets: readonly LineSet[];
  readonly weighings: readonly Weighing[];
}
