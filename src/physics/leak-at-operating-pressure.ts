import { air } from './air.ts';
import type { LeakDrive } from './leak-ratios.ts';
import { type CircuitInOperation, type LossBand, lossBand, lossInOperation } from './loss-in-operation.ts';

/** A leak seen in vacuum, and the circuit in operation. */
export interface LeakAtOperatingPressureOptions extends CircuitInOperation {
  /** Leak as seen in vacuum: air coming in from the atmosphere [Pa·m³/s], 0 or more, at `temperatureK`. */
  readonly leakPaM3PerS: number;
}

/** What a leak would lose, as a band. */
export type LeakAtOperatingPressure = LossBand;

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
 * A vacuum test cannot tell what sort of opening the air comes through: the band is the least and the most of the three
 * of `leakRatios`. For refrigerants well above the atmosphere molecular is the low end and laminar the high end. A hole
 * lies p₂/(p₁ − p₂) above molecular once it is sonic: 25 % at 5 bar, 15 % at 8 bar, within 8 % from 14 bar on. A
 * capillary between molecular and laminar, or turbulent in operation, lies between. Just above the atmosphere a hole
 * loses most, and for very light gases laminar may lose least.
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
  return lossBand(lossInOperation(options.leakPaM3PerS, airIntoVacuum(options.atmospherePa), options));
}

/** What drives a leak in a vacuum test. */
export function airIntoVacuum(atmospherePa: number = 101325): LeakDrive {
  return { fromPa: atmospherePa, toPa: 0, molarMassKgPerMol: air.molarMassKgPerMol, viscosityPaS: air.viscosityPaS };
}
