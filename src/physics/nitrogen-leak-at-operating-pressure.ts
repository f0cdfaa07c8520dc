import type { LeakDrive } from './leak-ratios.ts';
import { type CircuitInOperation, type LossBand, lossBand, lossInOperation } from './loss-in-operation.ts';
import { nitrogenGas } from './nitrogen-density.ts';

/** A leak seen in a standing nitrogen test, and the circuit in operation. */
export interface NitrogenLeakAtOperatingPressureOptions extends CircuitInOperation {
  /** Leak as seen in the test: nitrogen going out [Pa·m³/s], 0 or more, at `temperatureK`. */
  readonly leakPaM3PerS: number;
  /** Pressure of the test [Pa], absolute, above the atmosphere. */
  readonly testPa: number;
}

/** Viscosity [Pa·s] at 20 °C; 3 % more at 35 bar. Source: CoolProp 8.0, 17.57 µPa·s at 20 °C and 0.1 MPa. */
const viscosityPaS = 1.76e-5;

/**
 * What a leak that was seen in a standing nitrogen test would lose in operation, as a band.
 *
 * For what a drop of the gauge means, and for how small a leak a pressure test rules out. The test drives the leak the
 * same way as operation and about as hard: what sort of opening it is matters far less than for a leak seen in vacuum.
 *
 * @returns low and high [kg/year], the year of 365.25 days; both 0 where `operatingPa` is not above the atmosphere
 * @throws DryholdError `out-of-range` unless leak and operating pressure are 0 or more, the atmosphere, the temperature
 *   and the viscosity above 0, the test pressure above the atmosphere and the molar mass 0.001 to 1 kg/mol
 *
 * Source: `leakRatios`, the band being the least and the most of its three. Accuracy: from 500 psig to R-410A at 70 °F the
 * ends are 14 % apart, from 150 psig a factor of 2.8. Beyond the band: liquid at the leak (loses several times more),
 * joints that open at the higher pressure only, oil that closes a leak; the refrigerant is taken as an ideal gas, as by
 * `leakAtOperatingPressure`.
 *
 * @example
 * nitrogenLeakAtOperatingPressure({ leakPaM3PerS: 3.99e-4, testPa: 3548704, operatingPa: 14.87e5, temperatureK: 294.26,
 *   molarMassKgPerMol: 0.072585, viscosityPaS: 13.5e-6 }).highKgPerYear
 * // 0.0972
 */
export function nitrogenLeakAtOperatingPressure(options: NitrogenLeakAtOperatingPressureOptions): LossBand {
  const { leakPaM3PerS, testPa, atmospherePa } = options;
  return lossBand(lossInOperation(leakPaM3PerS, nitrogenOut(testPa, atmospherePa), options));
}

/** What drives a leak in a standing nitrogen test. */
export function nitrogenOut(testPa: number, atmospherePa: number = 101325): LeakDrive {
  return { fromPa: testPa, toPa: atmospherePa, molarMassKgPerMol: nitrogenGas.molarMassKgPerMol, viscosityPaS };
}
