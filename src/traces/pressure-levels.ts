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
  const raw = new Float64Array(count);
  let leastPa = overPa;
  for (let i = 0; i < count; i += 1) if (vacuumPa[i] > 0 && vacuumPa[i] < leastPa) leastPa = vacuumPa[i];
  const floorPa = leastPa / 2;
  for (let i = 0; i < count; i += 1) {
    const pressurePa = vacuumPa[i];
    raw[i] = Math.log(pressurePa > overPa ? overPa : pressurePa > floorPa ? pressurePa : floorPa);
  }
  const levels = new Float64Array(count);
  levels[0] = raw[0];
  levels[count - 1] = raw[count - 1];
  for (let i = 1; i < count - 1; i += 1) {
    const a = raw[i - 1];
    const b = raw[i];
    const c = raw[i + 1];
    levels[i] = a > b ? (b > c ? b : a > c ? c : a) : a > c ? a : b > c ? c : b;
  }
  return levels;
}
