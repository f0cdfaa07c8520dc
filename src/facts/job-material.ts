import type { Gauge } from '../records/tables/gauges.ts';
import type { Job } from '../records/tables/jobs.ts';
import type { LineSet } from '../records/tables/line-sets.ts';
import type { Weighing } from '../records/tables/weighings.ts';
import type { PhaseMark, VacuumSeries } from '../traces/vacuum-series.ts';

/** All that is known of one job before anything is computed. */
export interface JobMaterial {
  readonly jobId: string;
  /** Absent where readings came in for a job that no record tells of. */
  readonly job?: Job;
  /** The gauge that the record names, where the gauges table has it. */
  readonly gauge?: Gauge;
  readonly lineSets: readonly LineSet[];
  readonly weighings: readonly Weighing[];
  readonly series: readonly VacuumSeries[];
  readonly marks: readonly PhaseMark[];
}
