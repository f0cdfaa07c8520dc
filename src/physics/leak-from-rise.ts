import { limits } from './limits.ts';
import { requireWithin } from './require-within.ts';

/**
 * Leak that a steady pressure rise in a closed volume amounts to, the temperature taken as constant.
 *
 * For the size of a leak seen in an isolated, evacuated system.
 *
 * @param volumeM3 volume that the rise was seen in [m³]
 * @param risePaPerS steady rise [Pa/s]; below 0 where the pressure falls
 * @returns leak [Pa·m³/s], at the temperature of the gas, its sign kept
 * @throws DryholdError `out-of-range` unless the volume is above 0 and the rise finite
 *
 * Source: `vacuum-rate-of-rise`, Q = V Δp/Δt. Accuracy: exact; outgassing counts as leak where it is not taken out
 * first.
 *
 * @example
 * leakFromRise(0.004, 0.0385802) // 0.00015432
 */
export function leakFromRise(volumeM3: number, risePaPerS: number): number {
  requireWithin(limits.volume, volumeM3);
  requireWithin(limits.signedRise, risePaPerS);
  return volumeM3 * risePaPerS;
}
