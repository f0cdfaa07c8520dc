import { DryholdError } from '../errors.ts';
import { adaptiveIntegral } from '../numerics/adaptive-integral.ts';
import { limits } from './limits.ts';
import { requireWithin } from './require-within.ts';
import { type PumpedThrough, systemPumpingSpeed } from './system-pumping-speed.ts';

/** What a dry pull-down through hoses is made of. */
export interface PullDownThroughHoseOptions extends PumpedThrough {
  /** Volume to evacuate [m³]. */
  readonly volumeM3: number;
  /** Pressure at the start [Pa], absolute. */
  readonly startPa: number;
  /** Pressure to reach [Pa], absolute, in the system itself. */
  readonly endPa: number;
}

/**
 * Time of a dry pull-down through hoses that choke as the vacuum deepens.
 *
 * For what pump, hose and cores alone ask for, to set a measured pull-down against: whatever takes much longer is
 * boiling off water, giving off gas or leaking.
 *
 * @returns time [s]; 0 where the end is not below the start; +Infinity where the end is not above the pump's floor or
 *   nothing passes
 * @throws DryholdError `out-of-range` unless the volume is above 0 and speed and pressures are 0 or more;
 *   `not-converged` as `systemPumpingSpeed`, and where the integral does not settle: a wild passage, or an end so near the floor
 *   (some 1e-9 of it) that rounding hides the difference
 *
 * Source: `vacuum-conductance`, t = ∫ V dp / (p S(p)), S as `systemPumpingSpeed` has it. Accuracy: the integral within
 * 1e-8 of the closed forms for constant C and for C ∝ p̄, 1e-6 where a sonic bound bends it; what it stands for, as
 * `tubePassage`. Dry gas at one temperature, the volume all at one pressure.
 *
 * @example
 * pullDownThroughHose({ volumeM3: 0.005, pumpSpeedM3PerS: 0.00283, passages: [tubePassage(0.00635, 1.524)],
 *   startPa: 101325, endPa: 66.66 })
 * // 96.5
 */
export function pullDownThroughHose(options: PullDownThroughHoseOptions): number {
  const { volumeM3, startPa, endPa, floorPa = 0 } = options;
  requireWithin(limits.volume, volumeM3);
  requireWithin(limits.speed, options.pumpSpeedM3PerS);
  for (const pressurePa of [startPa, endPa, floorPa]) requireWithin(limits.pressure, pressurePa);
  if (endPa >= startPa) return 0;
  if (endPa <= floorPa || !(systemPumpingSpeed(options, endPa) > 0)) return Number.POSITIVE_INFINITY;
  // Over ln(p − floor) the integrand is constant for a constant speed, and never sharp.
  const secondsPerE = (logPa: number) => {
    const abovePa = Math.exp(logPa);
    const systemPa = floorPa + abovePa;
    return (volumeM3 * abovePa) / (systemPa * systemPumpingSpeed(options, systemPa));
  };
  const time = adaptiveIntegral(secondsPerE, Math.log(endPa - floorPa), Math.log(startPa - floorPa));
  if (time.converged) return time.value;
  throw new DryholdError('not-converged', { quantity: `time of a pull-down from ${startPa} to ${endPa} Pa` });
}
