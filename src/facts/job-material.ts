import type { Cylinder } from '../records/tables/cylinders.ts';
import type { Gauge } from '../records/tables/gauges.ts';
import type { Job } from '../records/tables/jobs.ts';
import type { LineSet } from '../records/tables/line-sets.ts';
import type { Weighing } from '../records/tables/weighings.ts';
import type { PressureSeries } from '../traces/pressure-series.ts';
import type { RunSeries } from '../traces/run-series.ts';
import type { ScaleSeries } from '../traces/scale-series.ts';
import type { PhaseMark, VacuumSeries } from '../traces/vacuum-series.ts';

/** The columns of a job's record that the facts of its readings rest on. */
export const measuredJobColumns = [
  'work_type',
  'rated_cooling_w',
  'altitude_m',
  'barometer_pa',
  'charge_basis',
  'line_length_m',
  'liquid_line_od_mm',
  'suction_line_od_mm',
  'circuit_volume_l',
  'tested_volume_l',
  'vacuum_target_pa',
  'rise_test_s',
  'rise_limit_pa',
  'rise_limit_kind',
  'pump_speed_l_per_s',
  'hose_bore_mm',
  'hose_length_m',
  'cores_removed',
  'gauge_id',
  'gauge_position',
  'gauge_accuracy_ratio',
  'gauge_step_pa',
  'clamp_accuracy_k',
  'test_pressure_target_pa',
  'test_pressure_hold_s',
  'scale_step_kg',
  'refrigerant',
  'metering',
  'metering_location',
  'compressor',
  'fixed_test_mode',
  'pressure_accuracy_ratio',
  'target_superheat_k',
  'target_subcooling_k',
] as const satisfies readonly (keyof Job)[];

/** What of the records the facts of its readings rest on; plain data, so that it can go to another thread. */
export interface MeasuredRecords {
  /** Absent where readings came in for a job that no record tells of. */
  readonly job?: Pick<Job, (typeof measuredJobColumns)[number]>;
  /** The gauge that the record names, where the gauges table has it. */
  readonly gauge?: Gauge;
  /** Of a system with several; otherwise the columns of the job tell of its one. */
  readonly lineSets?: readonly LineSet[];
}

/** What the pipe clamp showed while the vacuum was read. */
export interface LineTemperature {
  readonly meanK: number;
  /** The coldest, spikes left out. */
  readonly lowK: number;
}

/** What the facts of a vacuum log rest on. */
export interface VacuumMaterial extends MeasuredRecords {
  readonly series: readonly VacuumSeries[];
  readonly marks: readonly PhaseMark[];
  /** Absent where no clamp was read. */
  readonly line?: LineTemperature;
}

/** What the facts of a job's readings rest on. */
export interface MeasuredMaterial extends VacuumMaterial {
  /** Absent where no test pressure was read. */
  readonly pressure?: PressureSeries;
  /** Absent where no scale was read. */
  readonly scale?: ScaleSeries;
  /** Absent where nothing of a running system was read. */
  readonly run?: RunSeries;
}

/** All that the records tell of one job. */
export interface JobRecords extends MeasuredRecords {
  readonly jobId: string;
  readonly job?: Job;
  readonly lineSets: readonly LineSet[];
  readonly weighings: readonly Weighing[];
  /** Those that the weighings name. */
  readonly cylinders?: readonly Cylinder[];
}
