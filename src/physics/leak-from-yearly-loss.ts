import { YEAR_S } from './gas-constant.ts';
import { leakFromMolarLeak } from './leak-from-molar-leak.ts';

/**
 * Leak that a yearly loss amounts to: the inverse of `yearlyLoss`.
 *
 * For a limit given as mass a year.
 *
 * @param lossKgPerYear loss [kg/year], the year of 365.25 days
 * @param temperatureK temperature to give the leak at [K]
 * @param molarMassKgPerMol molar mass of the gas [kg/mol]
 * @returns leak of that gas [Pa·m³/s], as pressure times volume at `temperatureK`
 *
 * Source: `codata-2018`, ideal gas. Accuracy: as `yearlyLoss`.
 *
 * @example
 * leakFromYearlyLoss(0.001, 273.15, 0.102) // 7.056e-7
 */
export function leakFromYearlyLoss(lossKgPerYear: number, temperatureK: number, molarMassKgPerMol: number): number {
  return leakFromMolarLeak(lossKgPerYear / (molarMassKgPerMol * YEAR_S), temperatureK);
}
