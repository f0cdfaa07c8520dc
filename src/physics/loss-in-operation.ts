import { type LeakDrive, leakRatios, type PerOpening } from './leak-ratios.ts';
import { limits } from './limits.ts';
import { requireWithin } from './require-within.ts';
import { yearlyLoss } from './yearly-loss.ts';

/** A circuit in operation, as a leak sees it. */
export interface CircuitInOperation {
  /** Pressure in the circuit in operation [Pa], absolute. */
  readonly operatingPa: number;
  /** Pressure around it, in the test and in operation [Pa], absolute; 101325 where left out. */
  readonly atmospherePa?: number;
  /** Temperature of the gas, in the test and in operation [K]. */
  readonly temperatureK: number;
  /** Molar mass of the gas in operation [kg/mol]. */
  readonly molarMassKgPerMol: number;
  /** Its viscosity [Pa·s]. */
  readonly viscosityPaS: number;
}

/** What a leak would lose, as a band. */
export interface LossBand {
  readonly lowKgPerYear: number;
  readonly highKgPerYear: number;
}

/**
 * What a leak that was seen in a test would lose in operation, for each sort of opening.
 *
 * @param leakPaM3PerS leak as seen, of the gas that passed [Pa·m³/s], 0 or more
 * @param drive at which it was seen
 * @returns loss [kg/year], the year of 365.25 days; all 0 where the operating pressure is not above the atmosphere
 * @throws DryholdError `out-of-range` as `leakRatios` and `yearlyLoss`, and unless the leak is 0 or more and the
 *   atmosphere above 0
 *
 * Source and accuracy: as `leakRatios`; the gas in operation is taken as ideal.
 */
export function lossInOperation(leakPaM3PerS: number, drive: LeakDrive, circuit: CircuitInOperation): PerOpening {
  const { operatingPa, atmospherePa = 101325, temperatureK, molarMassKgPerMol, viscosityPaS } = circuit;
  requireWithin(limits.leak, leakPaM3PerS);
  requireWithin(limits.atmosphere, atmospherePa);
  const later = { fromPa: operatingPa, toPa: atmospherePa, molarMassKgPerMol, viscosityPaS };
  const { molecular, hole, laminar } = leakRatios(drive, later);
  const onceKgPerYear = yearlyLoss(leakPaM3PerS, temperatureK, molarMassKgPerMol);
  return { molecular: onceKgPerYear * molecular, hole: onceKgPerYear * hole, laminar: onceKgPerYear * laminar };
}

/** The least and the most over the sorts of opening that are given, one at least. */
export function lossBand(losses: Partial<PerOpening>): LossBand {
  const all = Object.values(losses);
  return { lowKgPerYear: Math.min(...all), highKgPerYear: Math.max(...all) };
}
