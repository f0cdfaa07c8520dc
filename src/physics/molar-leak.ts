import { GAS_CONSTANT_J_PER_MOL_K } from './gas-constant.ts';
import { limits } from './limits.ts';
import { requireWithin } from './require-within.ts';

/**
 * Leak in moles per second: what a throughput is, whatever the gas.
 *
 * For comparing leaks measured at different temperatures.
 *
 * @param leakPaM3PerS leak [Pa·m³/s], measured as pressure times volume at `temperatureK`
 * @param temperatureK temperature of the gas [K]
 * @returns leak [mol/s], its sign kept
 * @throws DryholdError `out-of-range` unless the leak is finite and the temperature above 0
 *
 * Source: `codata-2018`, ideal gas, n = Q/(R T). Accuracy: exact for an ideal gas. At one atmosphere the
 * refrigerants of this project are denser than that: the leak comes out 1.3 % (R-32) to 2.5 % (R-1234ze(E)) too small
 * at 20 °C, 1.7 to 3.2 % at 0 °C (`vapourDensity`); in proportion less at lower pressures.
 *
 * @example
 * molarLeak(0.1, 293.15) // 0.000041028
 */
export function molarLeak(leakPaM3PerS: number, temperatureK: number): number {
  requireWithin(limits.signedLeak, leakPaM3PerS);
  requireWithin(limits.temperature, temperatureK);
  return leakPaM3PerS / (GAS_CONSTANT_J_PER_MOL_K * temperatureK);
}
