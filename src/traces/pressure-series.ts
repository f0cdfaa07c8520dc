/** What the gauge of a standing pressure test showed on one job, and the pipe clamp with it. Parallel arrays, times ascending. */
export interface PressureSeries {
  /** [s] since the log began. */
  readonly elapsedS: Float64Array;
  /** [Pa] absolute, all of them read. */
  readonly testPa: Float64Array;
  /** Pipe temperature at these times [K]; undefined where no clamp was read. */
  readonly lineK?: Float64Array | undefined;
}

/** No test of a refrigerant circuit goes higher [Pa]: the records' own bound. */
export const mostPressurePa = 3e7;

/** The readings of a series that are pressures, in a new series; the same one where all are. */
export function usablePressure(series: PressureSeries): PressureSeries {
  const { elapsedS, testPa, lineK } = series;
  const isPressure = (pa: number) => pa >= 0 && pa <= mostPressurePa;
  if (testPa.every(isPressure)) return series;
  const of = (column: Float64Array) => column.filter((_, at) => isPressure(testPa[at]));
  return { elapsedS: of(elapsedS), testPa: of(testPa), lineK: lineK && of(lineK) };
}
