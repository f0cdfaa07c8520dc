import type { ChargeSlip } from './charge-slips.ts';
import type { Refrigerant } from './line-adders.ts';
import type { FaultKind } from './mishaps/fault-kind.ts';
import type { Unmodelled } from './mishaps/unmodelled-rise.ts';
import type { RiseShape } from './rise-shape.ts';
import type { RunPattern, RunUpset } from './run/run-test.ts';
import type { LeakSort } from './standing-test.ts';

/**
 * What was true of a simulated job; the columns of the `facts` table where they exist there, and what no log shows.
 *
 * Times run from the start of the log. Pressures are those at the gauge's place, free of the gauge's own error.
 */
export interface Truth {
  readonly job_id: string;
  /** Of the last pull; absent where it was never isolated after it. */
  readonly isolation_start_s?: number | undefined;
  readonly isolation_end_s?: number | undefined;
  /** How many times the pump was opened to the system after a break or an isolation. */
  readonly pulls?: number | undefined;
  readonly rise_shape?: RiseShape | undefined;
  /** Steady rise in that isolation, circuit and hose together [Pa/s]. */
  readonly leak_pa_per_s?: number | undefined;
  readonly deepest_pa?: number | undefined;
  /** In the last pull, at or below the recorded target (500 µm where none is recorded), pump connected [s]. */
  readonly hold_s?: number | undefined;
  /** By the true lengths of the lines; the technician reckons with the recorded ones. */
  readonly charge_target_kg?: number | undefined;
  readonly charged_kg?: number | undefined;
  readonly charge_deviation_kg?: number | undefined;
  readonly charge_slip?: ChargeSlip | undefined;
  /** What the slip changed of what was aimed at [kg]; the technician's miss is no part of it. */
  readonly charge_slip_kg?: number | undefined;
  /** What truly left the cylinder: `charged_kg` and `hose_residual_kg` [kg]. */
  readonly drawn_kg?: number | undefined;
  /** Recorded less true length of all lines together [m]. */
  readonly line_length_error_m?: number | undefined;
  /** What upset the scale, logged or not: names of `ScaleUpset` joined by +; who charges by a display that a hose shifts is off by the shift. */
  readonly scale_upset?: string | undefined;
  /** Whether the log shows the scale; absent where nothing was weighed in. */
  readonly scale_logged?: boolean | undefined;
  /** Steady rise by leaks of the circuit alone, after whatever was mended [Pa/s]. */
  readonly circuit_leak_pa_per_s?: number | undefined;
  readonly isolation_start_pa?: number | undefined;
  /** The parts of the rise [Pa]; vapour is water and other outgassing together. */
  readonly rise_leak_pa?: number | undefined;
  readonly rise_vapour_pa?: number | undefined;
  readonly rise_settling_pa?: number | undefined;
  /** Lowest pressure at the system itself, wherever the gauge sat [Pa]. */
  readonly deepest_system_pa?: number | undefined;
  /** Standing water before and after [kg]. */
  readonly water_kg?: number | undefined;
  readonly water_left_kg?: number | undefined;
  readonly gauge_gain_ratio?: number | undefined;
  readonly hose_residual_kg?: number | undefined;
  readonly log_cut?: 'start' | 'end' | undefined;
  /** Longest stretch of pressure test and vacuum that the recorder left out [s]; absent where it left out none. */
  readonly log_gap_s?: number | undefined;
  readonly phase_marks?: 'right' | 'wrong' | undefined;
  /** Probability of a callback by commissioning within a year. */
  readonly callback_risk?: number | undefined;
  /** Whether there was a standing pressure test, and a log of it; absent where the work asked for none. */
  readonly pressure_test?: 'logged' | 'unlogged' | 'skipped' | undefined;
  /** The last hold at full pressure, from the end of its filling on. */
  readonly pressure_hold_start_s?: number | undefined;
  readonly pressure_hold_end_s?: number | undefined;
  /** What was lost over that hold, as a drop at the temperature that the pipe had when it began [Pa]. */
  readonly pressure_drop_pa?: number | undefined;
  /** Nitrogen lost at the pressure that the hold began with [mol/s]. */
  readonly pressure_leak_mol_per_s?: number | undefined;
  /** The sort of opening that leaks; absent where nothing does. */
  readonly pressure_leak_sort?: LeakSort | undefined;
  /** Holds on the log, the last one included. */
  readonly pressure_stages?: number | undefined;
  /** Whether a pipe clamp was logged with it. */
  readonly pressure_clamp?: boolean | undefined;
  /** Whether a leak was seen by the test and mended before the vacuum: `circuit_leak_pa_per_s` is what was left. */
  readonly pressure_mended?: boolean | undefined;
  /** Of the run test, at the service valves over its last steady state in cooling, free of the instruments' errors. */
  readonly superheat_k?: number | undefined;
  readonly subcooling_k?: number | undefined;
  readonly steady_start_s?: number | undefined;
  readonly steady_end_s?: number | undefined;
  /** What is wrong with the running system; absent where no run test was logged. */
  readonly run_pattern?: RunPattern | undefined;
  readonly run_start_s?: number | undefined;
  /** What is in the system, whatever the record says. */
  readonly true_refrigerant?: Refrigerant | undefined;
  readonly run_upset?: RunUpset | undefined;
  /** The job whose pressures were handed in with this one; then times of what was done here are not on the log. */
  readonly copied_from_job_id?: string | undefined;
  /** A name of `copyKinds`. */
  readonly copy_kind?: string | undefined;
  /** Columns of the readings that are copied, joined by +. */
  readonly copied_columns?: string | undefined;
  /** A name of `recordingFaults`, and what sort of thing it is; times are by the clock as it ran before. */
  readonly recording_fault?: string | undefined;
  readonly recording_fault_kind?: FaultKind | undefined;
  /** Columns of the readings that have it, joined by +; absent where it is in the rows. */
  readonly recording_fault_column?: string | undefined;
  /** What the rise has in it that no model knows; the parts of the rise count it. */
  readonly unmodelled?: Unmodelled['name'] | undefined;
  /** A shape as right as `rise_shape`, where settling is as slow as moisture; absent where there is no other. */
  readonly rise_shape_also?: RiseShape | undefined;
  /** How far the gauge had drifted by that day, as a ratio of the reading; `gauge_gain_ratio` has it in. */
  readonly gauge_drift_ratio?: number | undefined;
  /** How fast the circuit warmed during the evacuation [K/s]; absent where its pressures do not show it. */
  readonly circuit_drift_k_per_s?: number | undefined;
}

/** The columns of the truth table, in their order. */
export const truthColumns = [
  'job_id',
  'isolation_start_s',
  'isolation_end_s',
  'pulls',
  'rise_shape',
  'leak_pa_per_s',
  'deepest_pa',
  'hold_s',
  'charge_target_kg',
  'charged_kg',
  'charge_deviation_kg',
  'charge_slip',
  'charge_slip_kg',
  'drawn_kg',
  'line_length_error_m',
  'scale_upset',
  'scale_logged',
  'circuit_leak_pa_per_s',
  'isolation_start_pa',
  'rise_leak_pa',
  'rise_vapour_pa',
  'rise_settling_pa',
  'deepest_system_pa',
  'water_kg',
  'water_left_kg',
  'gauge_gain_ratio',
  'hose_residual_kg',
  'log_cut',
  'log_gap_s',
  'phase_marks',
  'callback_risk',
  'pressure_test',
  'pressure_hold_start_s',
  'pressure_hold_end_s',
  'pressure_drop_pa',
  'pressure_leak_mol_per_s',
  'pressure_leak_sort',
  'pressure_stages',
  'pressure_clamp',
  'pressure_mended',
  'superheat_k',
  'subcooling_k',
  'steady_start_s',
  'steady_end_s',
  'run_pattern',
  'run_start_s',
  'true_refrigerant',
  'run_upset',
] as const satisfies readonly (keyof Truth)[];

/** The columns that the truth of a fleet with mishaps has beside those. */
export const mishapColumns = [
  'copied_from_job_id',
  'copy_kind',
  'copied_columns',
  'recording_fault',
  'recording_fault_kind',
  'recording_fault_column',
  'unmodelled',
  'rise_shape_also',
  'gauge_drift_ratio',
  'circuit_drift_k_per_s',
] as const satisfies readonly (keyof Truth)[];
