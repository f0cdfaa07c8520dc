import { limits } from './limits.ts';
import { requireWithin } from './require-within.ts';

/** What an ideal pull-down is made of. */
export interface PullDownTimeOptions {
  /** Volume to evacuate [m³]. */
  readonly volumeM3: number;
  /** Effective pumping speed [m³/s], constant. */
  readonly speedM3PerS: number;
  /** Pressure at the start [Pa], absolute. */
  readonly startPa: number;
  /** Pressure to reach [Pa], absolute. */
  readonly endPa: number;
  /** Floor that the pump cannot go below [Pa], absolute; 0 where left out. */
  readonly floorPa?: number;
}

/**
 * Time of an ideal pull-down: constant speed, dry gas, nothing coming off the walls.
 *
 * For a lower bound: real systems take longer, since the hose chokes and water desorbs.
 *
 * @returns time [s]; 0 where the end is not below the start; +Infinity where the end is not above the floor or
 *   the speed is 0
 * @throws DryholdError `out-of-range` unless the volume is above 0 and speed and pressures are 0 or more
 *
 * Source: `vacuum-conductance` (textbook form, t = (V/S) ln[(p0 − p_floor)/(p − p_floor)]). Accuracy: exact for what
 * it assumes.
 *
 * @example
 * pullDownTime({ volumeM3: 0.005, speedM3PerS: 0.00283, startPa: 101325, endPa: 66.66 }) // 12.944
 */
export function pullDownTime(options: PullDownTimeOptions): number {
  const { volumeM3, speedM3PerS, startPa, endPa, floorPa = 0 } = options;
  requireWithin(limits.volume, volumeM3);
  requireWithin(limits.speed, speedM3PerS);
  for (const pressurePa of [startPa, endPa, floorPa]) requireWithin(limits.pressure, pressurePa);
  if (endPa >= startPa) return 0;
  if (endPa <= floorPa) return Number.POSITIVE_INFINITY;
  return (volumeM3 / speedM3PerS) * Math.log((startPa - floorPa) / (endPa - floorPa));
}
