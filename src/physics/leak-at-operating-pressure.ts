import { air } from './air.ts';
import { limits } from './limits.ts';
import { nozzleThroughput } from './nozzle-throughput.ts';
import { requireWithin } from './require-within.ts';
import { yearlyLoss } from './yearly-loss.ts';

/** A leak seen in vacuum, and the circuit in operation. */
export interface LeakAtOperatingPressureOptions {
  /** Leak as seen in vacuum: air coming in from the atmosphere [Pa·m³/s], 0 or more, at `temperatureK`. */
  readonly leakPaM3PerS: number;
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
export interface LeakAtOperatingPressure {
  readonly lowKgPerYear: number;
  readonly highKgPerYear: number;
}

/**
 * What a leak that was seen in vacuum would lose in operation: an order of magnitude, as a band.
 *
 * For why a rise of a few microns matters at all: the same opening that let air in at one atmosphere has ten or forty
 * atmospheres behind it later, and another gas.
 *
 * @returns low and high [kg/year], the year of 365.25 days; both 0 where `operatingPa` is not above the atmosphere
 * @throws DryholdError `out-of-range` unless leak and operating pressure are 0 or more, the atmosphere, the temperature
 *   and the viscosity above 0 and the molar mass 0.001 to 1 kg/mol
 *
 * A vacuum test sees one flow at one pressure difference and cannot tell what sort of opening it goes through. Three
 * sorts are carried over, and the band is the least and the most of them:
 * - molecular, a channel finer than the free path: throughput ∝ (p₁ − p₂)/√M
 * - a short hole: throughput ∝ what an ideal nozzle passes from p₁ to p₂, /√M (sonic into vacuum)
 * - laminar, a long capillary: throughput ∝ (p₁² − p₂²)/η
 * For refrigerants well above the atmosphere molecular is the low end and laminar the high end. A hole lies
 * p₂/(p₁ − p₂) above molecular once it is sonic: 25 % at 5 bar, 15 % at 8 bar, within 8 % from 14 bar on. A capillary
 * between molecular and laminar, or turbulent in operation, lies between. Just above the atmosphere a hole loses most,
 * and for very light gases laminar may lose least, so that no sort is the low or the high end by decree.
 *
 * Source: `leak-regimes`, `isentropic-nozzle`; viscosity of air 18.2 µPa·s from memory; γ = 1.4 for either gas (at
 * γ = 1.1 for the refrigerant the hole passes up to 8 % less). Accuracy: an order of magnitude, the ends a factor of 33
 * apart for R-410A at 70 °F. Beyond the band: liquid at the leak (loses several times more), oil or ice that plugs it
 * in vacuum, joints that open under pressure. The gas is taken as ideal: the saturated vapours of this project are 13 %
 * (R-1234ze(E)) to 32 % (R-410A) denser at 20 °C, 21 to 54 % at 40 °C (`saturationAtTemperature`), so that more is
 * lost.
 *
 * @example
 * leakAtOperatingPressure({ leakPaM3PerS: 1.1111e-5, operatingPa: 14.87e5, temperatureK: 293.15,
 *   molarMassKgPerMol: 0.072585, viscosityPaS: 13.5e-6 }).highKgPerYear
 * // 3.018
 */
export function leakAtOperatingPressure(options: LeakAtOperatingPressureOptions): LeakAtOperatingPressure {
  const { leakPaM3PerS, operatingPa, atmospherePa = 101325, temperatureK, molarMassKgPerMol, viscosityPaS } = options;
  requireWithin(limits.leak, leakPaM3PerS);
  requireWithin(limits.pressure, operatingPa);
  requireWithin(limits.atmosphere, atmospherePa);
  requireWithin(limits.temperature, temperatureK);
  requireWithin(limits.molarMass, molarMassKgPerMol);
  requireWithin(limits.viscosity, viscosityPaS);
  if (!(operatingPa > atmospherePa)) return { lowKgPerYear: 0, highKgPerYear: 0 };
  const lightness = Math.sqrt(air.molarMassKgPerMol / molarMassKgPerMol);
  const molecular = ((operatingPa - atmospherePa) / atmospherePa) * lightness;
  const hole = (nozzleThroughput(1, operatingPa, atmospherePa) / nozzleThroughput(1, atmospherePa, 0)) * lightness;
  const laminar = ((operatingPa ** 2 - atmospherePa ** 2) / atmospherePa ** 2) * (air.viscosityPaS / viscosityPaS);
  const onceKgPerYear = yearlyLoss(leakPaM3PerS, temperatureK, molarMassKgPerMol);
  return {
    lowKgPerYear: onceKgPerYear * Math.min(molecular, hole, laminar),
    highKgPerYear: onceKgPerYear * Math.max(molecular, hole, laminar),
  };
}
