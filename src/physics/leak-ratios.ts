import { limits } from './limits.ts';
import { nozzleThroughput } from './nozzle-throughput.ts';
import { limitsOf, requireWithin } from './require-within.ts';

/** What drives a leak: the pressures on its two sides, and the gas that passes. */
export interface LeakDrive {
  /** Pressure on the side that the gas comes from [Pa], absolute: inside a circuit under pressure, outside one in vacuum. */
  readonly fromPa: number;
  /** Pressure on the side that it goes to [Pa], absolute. */
  readonly toPa: number;
  /** Molar mass of the gas [kg/mol]. */
  readonly molarMassKgPerMol: number;
  /** Its viscosity [Pa·s]. */
  readonly viscosityPaS: number;
}

/** A number for each sort of opening that a leak may go through. */
export interface PerOpening {
  /** A channel finer than the free path. */
  readonly molecular: number;
  /** A short hole. */
  readonly hole: number;
  /** A long capillary. */
  readonly laminar: number;
}

/**
 * How many times its throughput a leak has at another drive, for each sort of opening.
 *
 * For comparing tests of one circuit, and for what a leak seen in a test loses later. A test sees one flow at one drive
 * and cannot tell what sort of opening it goes through:
 * - molecular, a channel finer than the free path: throughput ∝ (p₁ − p₂)/√M
 * - a short hole: throughput ∝ what an ideal nozzle passes from p₁ to p₂, /√M (sonic into much less)
 * - laminar, a long capillary: throughput ∝ (p₁² − p₂²)/η
 * A capillary between molecular and laminar lies between. No sort is the least or the most by decree.
 *
 * @param seen drive at which the leak was seen, `fromPa` above `toPa`
 * @param later drive that it is carried over to, at the same temperature
 * @returns ratio of throughputs [Pa·m³/s over Pa·m³/s]; all 0 where `later.fromPa` is not above `later.toPa`
 * @throws DryholdError `out-of-range` unless pressures are 0 or more, that which the leak was seen from above that which
 *   it went to, molar masses 0.001 to 1 kg/mol and viscosities above 0
 *
 * Source: `leak-regimes`, `isentropic-nozzle`. Accuracy: of each law exact for an ideal gas, viscosity at either drive
 * constant and γ = 1.4 for either gas; which law holds is not known.
 *
 * @example
 * leakRatios({ fromPa: 101325, toPa: 0, molarMassKgPerMol: 0.02897, viscosityPaS: 18.2e-6 },
 *   { fromPa: 3548704, toPa: 101325, molarMassKgPerMol: 0.0280134, viscosityPaS: 17.6e-6 }).laminar
 * // 1267
 */
export function leakRatios(seen: LeakDrive, later: LeakDrive): PerOpening {
  requireDrive(seen);
  requireDrive(later);
  if (!(seen.fromPa > seen.toPa)) {
    const quantity = 'pressure that a leak was seen from [Pa], absolute';
    requireWithin(limitsOf(quantity, { above: seen.toPa }), seen.fromPa);
  }
  if (!(later.fromPa > later.toPa)) return { molecular: 0, hole: 0, laminar: 0 };
  const lightness = Math.sqrt(seen.molarMassKgPerMol / later.molarMassKgPerMol);
  return {
    molecular: ((later.fromPa - later.toPa) / (seen.fromPa - seen.toPa)) * lightness,
    hole: (nozzleThroughput(1, later.fromPa, later.toPa) / nozzleThroughput(1, seen.fromPa, seen.toPa)) * lightness,
    laminar:
      ((later.fromPa ** 2 - later.toPa ** 2) / (seen.fromPa ** 2 - seen.toPa ** 2)) *
      (seen.viscosityPaS / later.viscosityPaS),
  };
}

function requireDrive({ fromPa, toPa, molarMassKgPerMol, viscosityPaS }: LeakDrive): void {
  requireWithin(limits.pressure, fromPa);
  requireWithin(limits.pressure, toPa);
  requireWithin(limits.molarMass, molarMassKgPerMol);
  requireWithin(limits.viscosity, viscosityPaS);
}
