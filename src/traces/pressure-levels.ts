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
  // Of the readings above the range: the first after one within it, where the last stretch of them begins, and the last.
  let innerOver = -1;
  let stretchFrom = 0;
  let lastOver = -1;
  for (let i = 0; i < count; i += 1) {
    const pa = vacuumPa[i];
    if (pa < leastPa && pa > 0) leastPa = pa;
    if (!(pa > mostPa)) continue;
    if (pa < Number.POSITIVE_INFINITY) mostPa = pa;
    else {
      if (i !== lastOver + 1) {
        stretchFrom = i;
        if (innerOver < 0) innerOver = i;
      }
      lastOver = i;
    }
  }
  const floorPa = leastPa / 2;
  const levels = memory === undefined || memory.length < count ? new Float64Array(count) : memory.subarray(0, count);
  let last = Number.NaN;
  let level = 0;
  let before = vacuumPa[0];
  let at = before;
  for (let i = 0; i < count; i += 1) {
    // The median of three pressures has the median of their logarithms.
    const after = i < count - 1 ? vacuumPa[i + 1] : at;
    const middle = medianOfThree(before, at, after);
    before = at;
    at = after;
    // Gauges in steps repeat themselves, and above their range they say nothing else.
    if (middle !== last) {
      level = Math.log(middle > overPa ? overPa : middle > floorPa ? middle : floorPa);
      last = middle;
    }
    levels[i] = level;
  }
  // Most logs are above the range at their ends only.
  const isBetween = innerOver >= 0 && (innerOver < stretchFrom || lastOver < count - 1);
  if (isBetween && mostPa < overPa) levelFlicker(vacuumPa, levels, mostPa, innerOver, lastOver);
  return levels;
}

/**
 * Near the end of its range a gauge flickers between readings and "above": there the pressure is about its highest
 * reading, and no break.
 *
 * @param firstOver index of the first reading above the range after one within it; @param lastOver of the last
 */
function levelFlicker(
  vacuumPa: Float64Array,
  levels: Float64Array,
  mostPa: number,
  firstOver: number,
  lastOver: number,
): void {
  const level = Math.log(mostPa);
  const nearPa = nearMost * mostPa;
  let last = -1;
  const end = Math.min(vacuumPa.length, lastOver + flickers);
  for (let i = Math.max(0, firstOver - flickers); i < end; i += 1) {
    const pa = vacuumPa[i];
    if (pa <= nearPa) last = -1;
    if (!(pa > nearPa && pa < Number.POSITIVE_INFINITY)) continue;
    if (last >= 0 && i - last <= flickers)
      for (let over = last + 1; over < i; over += 1) levels[over] = Math.min(levels[over], level);
    last = i;
  }
}
