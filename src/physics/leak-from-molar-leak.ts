import { GAS_CONSTANT_J_PER_MOL_K } from './gas-constant.ts';

/**
 * Leak as pressure times volume per second: the inverse of `molarLeak`.
 *
 * For setting a leak from a temperature-corrected test (`molarLeakFromRise`) beside others.
 *
 * @param leakMolPerS leak [mol/s]
 * @param temperatureK temperature to give it at [K]
 * @returns leak [Pa·m³/s]
 *
 * Source: `codata-2018`, ideal gas, Q = n R T. Accuracy: exact for an ideal gas.
 *
 * @example
 * leakFromMolarLeak(0.000041028, 293.15) // 0.1
 */
export function leakFromMolarLeak(leakMolPerS: number, temperatureK: number): number {
  return leakMolPerS * GAS_CONSTANT_J_PER_MOL_K * temperatureK;
}
