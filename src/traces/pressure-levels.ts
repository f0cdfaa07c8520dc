import type { VacuumSeries } from './vacuum-series.ts';

/** Pressure that stands for "above the gauge's range" [Pa]. */
const overPa = 101_325;

/**
 * The logarithm of the pressure, spikes of one reading taken out by a running median of three.
 *
 * A reading of 0, below the gauge's step, counts as half the lowest that it showed otherwise.
 *
 * @returns levels, ln of Pa; parallel to the series
 */
export function pressureLevels({ vacuumPa }: VacuumSeries): Float64Array {
  const count = vacuumPa.length;
  let leastPa = overPa;
  for (let i = 0; i < count; i += 1) if (vacuumPa[i] > 0 && vacuumPa[i] < leastPa) leastPa = vacuumPa[i];
  const floorPa = leastPa / 2;
  const levels = new Float64Array(count);
  let last = Number.NaN;
  let level = 0;
  for (let i = 0; i < count; i += 1) {
    // The median of three pressures has the median of their logarithms.
    const a = vacuumPa[i > 0 ? i - 1 : i];
    const b = vacuumPa[i];
    const c = vacuumPa[i < count - 1 ? i + 1 : i];
    const middle = a > b ? (b > c ? b : a > c ? c : a) : a > c ? a : b > c ? c : b;
    // Gauges in steps repeat themselves, and above their range they say nothing else.
    if (middle !== last) {
      level = Math.log(middle > overPa ? overPa : middle > floorPa ? middle : floorPa);
      last = middle;
    }
    levels[i] = level;
  }
  return levels;
}
