import { GAS_CONSTANT_J_PER_MOL_K } from './gas-constant.ts';

/**
 * Leak in moles per second: what a throughput is, whatever the gas.
 *
 * For comparing leaks measured at different temperatures.
 *
 * @param leakPaM3PerS leak [Pa·m³/s], measured as pressure times volume at `temperatureK`
 * @param temperatureK temperature of the gas [K]
 * @returns leak [mol/s]
 *
 * Source: `codata-2018`, ideal gas, n = Q/(R T). Accuracy: exact for an ideal gas, so at one atmosphere and below
 * within some 2 % for refrigerants (from memory).
 *
 * @example
 * molarLeak(0.1, 293.15) // 0.000041028
 */
export function molarLeak(leakPaM3PerS: number, temperatureK: number): number {
  return leakPaM3PerS / (GAS_CONSTANT_J_PER_MOL_K * temperatureK);
}
