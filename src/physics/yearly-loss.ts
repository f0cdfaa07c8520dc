import { limits } from './limits.ts';
import { molarLeak } from './molar-leak.ts';
import { requireWithin } from './require-within.ts';
import { YEAR_S } from './year.ts';

/**
 * Mass that a steady leak loses in a year.
 *
 * For saying a leak in the unit that refrigerant is bought in. The leak is that of the escaping gas itself: a leak seen
 * in vacuum is air coming in, which `leakAtOperatingPressure` carries over.
 *
 * @param leakPaM3PerS leak of the escaping gas [Pa·m³/s], measured as pressure times volume at `temperatureK`
 * @param temperatureK temperature of the gas [K]
 * @param molarMassKgPerMol molar mass of the gas [kg/mol]
 * @returns loss [kg/year], the year of 365.25 days; its sign is the leak's
 * @throws DryholdError `out-of-range` unless the leak is finite, the temperature above 0 and the molar mass 0.001 to
 *   1 kg/mol
 *
 * Source: `codata-2018`, ideal gas. Accuracy: the rows of `leak-mass-per-year` within 0.002 %, but for one whose
 * molar mass was rounded.
 *
 * @example
 * yearlyLoss(0.1, 293.15, 0.072585) // 93.98
 */
export function yearlyLoss(leakPaM3PerS: number, temperatureK: number, molarMassKgPerMol: number): number {
  requireWithin(limits.molarMass, molarMassKgPerMol);
  return molarLeak(leakPaM3PerS, temperatureK) * molarMassKgPerMol * YEAR_S;
}
