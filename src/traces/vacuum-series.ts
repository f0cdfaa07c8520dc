/** What one vacuum gauge showed on one job. Parallel arrays, times ascending. */
export interface VacuumSeries {
  /** The gauge's name in the readings; null where the job has one gauge only. */
  readonly gauge: string | null;
  /** [s] since the log began. */
  readonly elapsedS: Float64Array;
  /** [Pa] absolute; +Infinity above the gauge's range, NaN where not read. */
  readonly vacuumPa: Float64Array;
}

/** What the source says was going on from a moment on; a hint. */
export interface PhaseMark {
  readonly elapsedS: number;
  /** A phase word, or null where the mark ends. */
  readonly phase: string | null;
}

/**
 * The readings of a series that say anything, in a new series; the same one where all do. A gauge that never shows
 * more than 0 says nothing.
 *
 * @example usable(series) // without the rows in which this gauge was not read
 */
export function usable(series: VacuumSeries): VacuumSeries {
  const { elapsedS, vacuumPa } = series;
  const count = vacuumPa.some((pa) => pa > 0) ? countShown(vacuumPa) : 0;
  if (count === vacuumPa.length) return series;
  const times = new Float64Array(count);
  const pressures = new Float64Array(count);
  for (let i = 0, next = 0; next < count; i += 1) {
    if (!(vacuumPa[i] >= 0)) continue;
    times[next] = elapsedS[i];
    pressures[next] = vacuumPa[i];
    next += 1;
  }
  return { gauge: series.gauge, elapsedS: times, vacuumPa: pressures };
}

function countShown(vacuumPa: Float64Array): number {
  let count = 0;
  for (let i = 0; i < vacuumPa.length; i += 1) if (vacuumPa[i] >= 0) count += 1;
  return count;
}
