/** One pressure curve of a job, as far as it can be held beside others. Parallel arrays, one entry a reading that says something. */
export interface PressureCurve {
  /** [s], ascending. */
  readonly elapsedS: Float64Array;
  /** Logarithm of the pressure in Pa; NaN above the gauge's range. */
  readonly levels: Float64Array;
  /** Where readings follow each other without a hole, in order. */
  readonly stretches: readonly CurveStretch[];
  /** Usual time between readings [s]. */
  readonly intervalS: number;
}

/** Rows from `from` to before `end`. */
export interface CurveStretch {
  readonly from: number;
  readonly end: number;
}

// Common practice, no source; set on simulated fleets (tests/copies).
/** A hole is so many times the usual interval. */
const holeTimes = 8;
/** Shorter stretches show nothing. */
const fewestRows = 12;

/**
 * A pressure as a curve: rescaled, it is the same one at another level.
 *
 * @param elapsedS [s], ascending; @param pa [Pa]: NaN not read, +Infinity above the range
 */
export function pressureCurve(elapsedS: Float64Array, pa: Float64Array): PressureCurve {
  const rows: number[] = [];
  for (let row = 0; row < pa.length; row += 1) if (pa[row] > 0) rows.push(row);
  const times = new Float64Array(rows.length);
  const levels = new Float64Array(rows.length);
  for (const [at, row] of rows.entries()) {
    times[at] = elapsedS[row];
    levels[at] = pa[row] === Number.POSITIVE_INFINITY ? Number.NaN : Math.log(pa[row]);
  }
  const intervalS = usualIntervalS(times, levels);
  return { elapsedS: times, levels, stretches: stretchesOf(times, levels, holeTimes * intervalS), intervalS };
}

function usualIntervalS(times: Float64Array, levels: Float64Array): number {
  const apart = new Float64Array(Math.max(0, times.length - 1));
  let count = 0;
  for (let row = 1; row < times.length; row += 1) {
    if (Number.isNaN(levels[row]) || Number.isNaN(levels[row - 1])) continue;
    apart[count] = times[row] - times[row - 1];
    count += 1;
  }
  return count === 0 ? 1 : apart.subarray(0, count).sort()[count >> 1];
}

function stretchesOf(times: Float64Array, levels: Float64Array, holeS: number): CurveStretch[] {
  const stretches: CurveStretch[] = [];
  let from = -1;
  for (let row = 0; row <= levels.length; row += 1) {
    const isRead = row < levels.length && !Number.isNaN(levels[row]);
    if (from >= 0 && (!isRead || times[row] - times[row - 1] > holeS)) {
      if (row - from >= fewestRows) stretches.push({ from, end: row });
      from = -1;
    }
    if (isRead && from < 0) from = row;
  }
  return stretches;
}
