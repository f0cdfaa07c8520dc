/** What the gauge of a standing pressure test showed on one job, and the pipe clamp with it. Parallel arrays, times ascending. */
export interface PressureSeries {
  /** [s] since the log began. */
  readonly elapsedS: Float64Array;
  /** [Pa] absolute, all of them read. */
  readonly testPa: Float64Array;
  /** Pipe temperature at these times [K]; undefined where no clamp was read. */
  readonly lineK?: Float64Array | undefined;
}
