import { median } from '../../numerics/median.ts';
import type { Scratch } from '../../numerics/scratch.ts';

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

/** Memory that is used again for the next curve. */
export interface CurveMemory {
  readonly times: Scratch;
  readonly levels: Scratch;
}

/** Rows from `from` to before `end`. */
export interface CurveStretch {
  readonly from: number;
  readonly end: number;
}

// Common practice, no source; set on simulated fleets (tests/copies).
/** A hole is so many times the usual interval. */
const holeTimes = 8;
/** The usual interval is told from about so many pairs of neighbours. */
const lookedAt = 200;
/** Shorter stretches show nothing. */
const fewestRows = 12;

/**
 * A pressure as a curve: rescaled, it is the same one at another level.
 *
 * @param elapsedS [s], ascending; @param pa [Pa]: NaN not read, +Infinity above the range
 * @param memory what the arrays may lie in, where they are done with before they are taken again
 */
export function pressureCurve(elapsedS: Float64Array, pa: Float64Array, memory?: CurveMemory): PressureCurve {
  let count = 0;
  for (let row = 0; row < pa.length; row += 1) if (pa[row] > 0) count += 1;
  const times = memory?.times.take(count) ?? new Float64Array(count);
  const levels = memory?.levels.take(count) ?? new Float64Array(count);
  for (let row = 0, at = 0; at < count; row += 1) {
    if (!(pa[row] > 0)) continue;
    times[at] = elapsedS[row];
    levels[at] = pa[row] === Number.POSITIVE_INFINITY ? Number.NaN : Math.log(pa[row]);
    at += 1;
  }
  const intervalS = usualIntervalS(times, levels);
  return { elapsedS: times, levels, stretches: stretchesOf(times, levels, holeTimes * intervalS), intervalS };
}

/** Median of the times between some neighbouring readings. */
function usualIntervalS(times: Float64Array, levels: Float64Array): number {
  const stride = Math.max(1, Math.floor(times.length / lookedAt));
  const apart: number[] = [];
  for (let row = 1; row < times.length; row += stride)
    if (!Number.isNaN(levels[row]) && !Number.isNaN(levels[row - 1])) apart.push(times[row] - times[row - 1]);
  return apart.length === 0 ? 1 : median(apart);
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
