import { leakFromMolarLeak } from './leak-from-molar-leak.ts';
import { limits } from './limits.ts';
import { requireWithin } from './require-within.ts';
import { YEAR_S } from './year.ts';

/**
 * Leak that a yearly loss amounts to: the inverse of `yearlyLoss`.
 *
 * For a limit given as mass a year.
 *
 * @param lossKgPerYear loss [kg/year], the year of 365.25 days
 * @param temperatureK temperature to give the leak at [K]
 * @param molarMassKgPerMol molar mass of the gas [kg/mol]
 * @returns leak of that gas [Pa·m³/s], as pressure times volume at `temperatureK`, its sign kept
 * @throws DryholdError `out-of-range` unless the loss is finite, the temperature above 0 and the molar mass 0.001 to
 *   1 kg/mol
 *
 * Source: `codata-2018`, ideal gas. Accuracy: as `yearlyLoss`.
 *
 * @example
 * leakFromYearlyLoss(0.001, 273.15, 0.102) // 7.056e-7
 */
export function leakFromYearlyLoss(lossKgPerYear: number, temperatureK: number, molarMassKgPerMol: number): number {
  requireWithin(limits.signedYearlyLoss, lossKgPerYear);
  requireWithin(limits.molarMass, molarMassKgPerMol);
  return leakFromMolarLeak(lossKgPerYear / (molarMassKgPerMol * YEAR_S), temperatureK);
}
