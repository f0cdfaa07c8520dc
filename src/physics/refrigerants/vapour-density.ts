import { DryholdError } from '../../errors.ts';
import type { NotConverged } from '../equations/phase-boundary.ts';
import { phaseDensity } from '../equations/phase-density.ts';
import { phaseState } from '../equations/phase-state.ts';
import { isStable } from '../equations/phase-stability.ts';
import { saturationPoint } from '../equations/saturation-point.ts';
import type { Refrigerant } from './mixture-of.ts';

/** A density of vapour. */
export interface VapourDensity {
  readonly converged: true;
  readonly densityKgPerM3: number;
}

/** How far above its dew pressure a vapour is still taken for saturated: rounding, no more. */
const ROUNDING = 1e-7;

/**
 * Density of superheated vapour.
 *
 * For the mass of gas in a suction line, a cylinder or a circuit.
 *
 * @param temperatureK temperature [K], from the triple point (of a blend: the highest of its components) to the upper limit
 *   of the equations
 * @param pressurePa pressure [Pa], absolute, above 0, up to the dew pressure or the upper limit of the equations
 * @returns density [kg/m³]; not converged above the last dew pressure found, near the critical temperature of a blend and
 *   above it: there nothing tells vapour from two phases
 * @throws DryholdError `out-of-range` outside those limits, the dew pressure among them: there it is not vapour alone
 *
 * Source: the references of the components and their pairs. Accuracy: every printed figure of CoolProp 8.0 (nine) for R-32,
 * R-410A and R-454B, 0.05…3 MPa, 0…50 K of superheat. The equations themselves: see `Refrigerant`.
 *
 * @example
 * vapourDensity(refrigerantNamed('R-410A'), 300, 1e6).densityKgPerM3 // 33.826
 */
export function vapourDensity(
  refrigerant: Refrigerant,
  temperatureK: number,
  pressurePa: number,
): VapourDensity | NotConverged {
  const { designation, components, lowestK, highestK, highestPa, moleFractions, molarMassKgPerMol } = refrigerant;
  if (!(temperatureK >= lowestK && temperatureK <= highestK)) {
    throw new DryholdError('out-of-range', {
      quantity: `temperature of ${designation} vapour [K]`,
      bound: `${lowestK} to ${highestK}`,
      received: temperatureK,
    });
  }
  const supercritical = components.length === 1 && temperatureK >= components[0].criticalK;
  const dew = supercritical ? undefined : saturationPoint(refrigerant, 'dew', 'temperatureK', temperatureK);
  const dewPa = dew?.converged ? dew.pressurePa * (1 + ROUNDING) : highestPa;
  if (!(pressurePa > 0 && pressurePa <= Math.min(dewPa, highestPa))) {
    throw new DryholdError('out-of-range', {
      quantity: `pressure of ${designation} vapour at ${temperatureK} K [Pa], absolute`,
      bound: `above 0 and at most ${Math.min(dewPa, highestPa)}${dew?.converged ? ' (dew point)' : ''}`,
      received: pressurePa,
    });
  }
  if (dew?.converged === false && !(pressurePa <= dew.lastPa)) return dew;
  const densityMolPerM3 = phaseDensity(refrigerant, 'vapour', temperatureK, pressurePa, moleFractions);
  if (Number.isNaN(densityMolPerM3)) {
    return { converged: false, reason: 'end-of-curve', lastK: temperatureK, lastPa: pressurePa };
  }
  if (dew?.converged === false) {
    // The last pressure of a curve that was not found is no dew pressure: the vapour itself must hold.
    const { lnFugacity } = phaseState(refrigerant, temperatureK, densityMolPerM3, moleFractions);
    if (!isStable(refrigerant, temperatureK, pressurePa, lnFugacity)) return dew;
  }
  return { converged: true, densityKgPerM3: densityMolPerM3 * molarMassKgPerMol };
}
