import { Scratch } from '../../numerics/scratch.ts';
import type { PressureCurve } from './pressure-curve.ts';

/**
 * What a gauge's readings leave over a smooth course, beside how much they usually leave around there: no two logs of a gauge
 * that shows any noise have it alike. Of a rescaled curve it stays the same.
 */
export interface Texture {
  /** One a reading; NaN near holes, where nothing is told. */
  readonly deviations: Float32Array;
  /** How many of them tell: exceed `leastTelling`. */
  readonly telling: number;
  /** How many independent ones would say as much, (Σd²)² / Σd⁴: a few bends and steps among many small ones say little. */
  readonly effective: number;
  /** How often the pressure turned from rising to falling or back: a gauge without noise turns only where the system does. */
  readonly turns: number;
}

// Common practice, no source; set on simulated fleets (tests/copies).
/** Readings on either side through which the smooth course is laid. */
const sideRows = 5;
/** Readings on either side that tell what is usual. */
const usualRows = 32;
/** Smaller deviations may be rounding. */
export const leastTelling = 0.4;
/** Larger deviations are spikes and bends: they count no more than this. */
const mostDeviation = 3;
/** As much of a single deviation counts into what is usual, so that one bend does not hide the noise around it. */
const mostCounted = 0.1;

/**
 * Weights of a parabola’s value in the middle of 11 equally spaced points, from the middle outwards.
 *
 * Source: `savitzky-golay-1964`.
 */
const smoothWeights = [89, 84, 69, 44, 9, -36].map((weight) => weight / 429);

const scratch = { sums: new Scratch(), raw: new Scratch() };

/** The texture of a curve; each stretch by itself. */
export function textureOf({ levels, stretches }: PressureCurve): Texture {
  const deviations = new Float32Array(levels.length).fill(Number.NaN);
  const sums = scratch.sums.take(levels.length + 1);
  const raw = scratch.raw.take(levels.length);
  const [middle, one, two, three, four, five] = smoothWeights;
  let telling = 0;
  let turns = 0;
  let squares = 0;
  let fourths = 0;
  for (const { from, end } of stretches) {
    turns += turnsOf(levels.subarray(from, end));
    const first = from + sideRows;
    const last = end - sideRows;
    for (let row = first; row < last; row += 1) {
      const left =
        levels[row] * (1 - middle) -
        one * (levels[row - 1] + levels[row + 1]) -
        two * (levels[row - 2] + levels[row + 2]) -
        three * (levels[row - 3] + levels[row + 3]) -
        four * (levels[row - 4] + levels[row + 4]) -
        five * (levels[row - 5] + levels[row + 5]);
      raw[row] = left;
      sums[row + 1] = (row === first ? 0 : sums[row]) + Math.min(mostCounted, Math.abs(left));
    }
    for (let row = first; row < last; row += 1) {
      const low = row - usualRows > first ? row - usualRows : first;
      const high = row + usualRows + 1 < last ? row + usualRows + 1 : last;
      const usual = (sums[high] - (low === first ? 0 : sums[low])) / (high - low);
      // What is left over by rounding of numbers alone is nothing.
      const deviation = usual > 1e-9 ? raw[row] / usual : 0;
      deviations[row] = deviation;
      if (Math.abs(deviation) > leastTelling) telling += 1;
      const most = counted(deviation);
      const square = most * most;
      squares += square;
      fourths += square * square;
    }
  }
  return { deviations, telling, effective: fourths === 0 ? 0 : (squares * squares) / fourths, turns };
}

/** A deviation as far as it counts. */
export function counted(deviation: number): number {
  if (deviation > mostDeviation) return mostDeviation;
  return deviation < -mostDeviation ? -mostDeviation : deviation;
}

function turnsOf(levels: Float64Array): number {
  let turns = 0;
  let rising = 0;
  for (let row = 1; row < levels.length; row += 1) {
    const change = levels[row] - levels[row - 1];
    if (change === 0) continue;
    if (rising !== 0 && change > 0 !== rising > 0) turns += 1;
    rising = change;
  }
  return turns;
}
