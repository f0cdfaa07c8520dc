import { limits } from './limits.ts';
import { requireWithin } from './require-within.ts';

/**
 * Pressure rise that a leak makes in a closed volume: the inverse of `leakFromRise`.
 *
 * For whether a rise test could have seen a leak of a given size.
 *
 * @param volumeM3 closed volume [m³], above 0
 * @param leakPaM3PerS leak [Pa·m³/s], at the temperature of the gas
 * @returns rise [Pa/s], with the sign of the leak
 * @throws DryholdError `out-of-range` unless the volume is above 0 and the leak finite
 *
 * Source: `vacuum-rate-of-rise`, Q = V Δp/Δt. Accuracy: exact.
 *
 * @example
 * riseFromLeak(0.004, 0.00015432) // 0.03858
 */
export function riseFromLeak(volumeM3: number, leakPaM3PerS: number): number {
  requireWithin(limits.volume, volumeM3);
  requireWithin(limits.signedLeak, leakPaM3PerS);
  return leakPaM3PerS / volumeM3;
}
