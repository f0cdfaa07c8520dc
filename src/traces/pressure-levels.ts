import { medianOfThree } from '../numerics/median-of-three.ts';
import type { VacuumSeries } from './vacuum-series.ts';

/** Pressure that stands for "above the gauge's range" [Pa]. */
const overPa = 101_325;

// Common practice, no source.
/** A gauge near its range reads at least so much of its highest reading … */
const nearMost = 0.85;
/** … on both sides of so many readings above it at most. */
const flickers = 30;

/**
 * The logarithm of the pressure, spikes of one reading taken out by a running median of three.
 *
 * A reading of 0, below the gauge's step, counts as half the lowest that it showed otherwise.
 *
 * @param memory to write into, where it is long enough
 * @returns levels, ln of Pa; parallel to the series
 */
export function pressureLevels({ vacuumPa }: VacuumSeries, memory?: Float64Array): Float64Array {
  const count = vacuumPa.length;
  let leastPa = overPa;
  let mostPa = 0;
  let overs = 0;
  for (let i = 0; i < count; i += 1) {
    const pa = vacuumPa[i];
    if (pa > 0 && pa < leastPa) leastPa = pa;
    if (pa === Number.POSITIVE_INFINITY) overs += 1;
    else if (pa > mostPa) mostPa = pa;
  }
  const floorPa = leastPa / 2;
  const levels = memory === undefined || memory.length < count ? new Float64Array(count) : memory.subarray(0, count);
  let last = Number.NaN;
  let level = 0;
  for (let i = 0; i < count; i += 1) {
    // The median of three pressures has the median of their logarithms.
    const a = vacuumPa[i > 0 ? i - 1 : i];
    const b = vacuumPa[i];
    const c = vacuumPa[i < count - 1 ? i + 1 : i];
    const middle = medianOfThree(a, b, c);
    // Gauges in steps repeat themselves, and above their range they say nothing else.
    if (middle !== last) {
      level = Math.log(middle > overPa ? overPa : middle > floorPa ? middle : floorPa);
      last = middle;
    }
    levels[i] = level;
  }
  if (overs > 0 && mostPa < overPa) levelFlicker(vacuumPa, levels, mostPa);
  return levels;
}

/**
 * Near the end of its range a gauge flickers between readings and "above": there the pressure is about its highest
 * reading, and no break.
 */
function levelFlicker(vacuumPa: Float64Array, levels: Float64Array, mostPa: number): void {
  const level = Math.log(mostPa);
  let last = -1;
  for (let i = 0; i < vacuumPa.length; i += 1) {
    if (!(vacuumPa[i] > nearMost * mostPa && vacuumPa[i] < Number.POSITIVE_INFINITY)) {
      if (vacuumPa[i] <= nearMost * mostPa) last = -1;
      continue;
    }
    if (last >= 0 && i - last <= flickers)
      for (let over = last + 1; over < i; over += 1) levels[over] = Math.min(levels[over], level);
    last = i;
  }
}
