/** What the charging scale showed on one job. Parallel arrays, times ascending, all of them read. */
export interface ScaleSeries {
  /** [s] since the log began. */
  readonly elapsedS: Float64Array;
  /** [kg]; the cylinder, or less than it where the scale was zeroed with the cylinder on it. */
  readonly scaleKg: Float64Array;
}
