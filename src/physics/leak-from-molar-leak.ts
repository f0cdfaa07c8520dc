import { GAS_CONSTANT_J_PER_MOL_K } from './gas-constant.ts';
import { limits } from './limits.ts';
import { requireWithin } from './require-within.ts';

/**
 * Leak as pressure times volume per second: the inverse of `molarLeak`.
 *
 * For setting a leak from a temperature-corrected test (`molarLeakFromRise`) beside others.
 *
 * @param leakMolPerS leak [mol/s]; below 0 where the gas got less
 * @param temperatureK temperature to give it at [K]
 * @returns leak [Pa·m³/s], its sign kept
 * @throws DryholdError `out-of-range` unless the leak is finite and the temperature above 0
 *
 * Source: `codata-2018`, ideal gas, Q = n R T. Accuracy: exact for an ideal gas.
 *
 * @example
 * leakFromMolarLeak(0.000041028, 293.15) // 0.1
 */
export function leakFromMolarLeak(leakMolPerS: number, temperatureK: number): number {
  requireWithin(limits.signedMolarLeak, leakMolPerS);
  requireWithin(limits.temperature, temperatureK);
  return leakMolPerS * GAS_CONSTANT_J_PER_MOL_K * temperatureK;
}
