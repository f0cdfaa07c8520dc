import type { NotConverged } from './equations/phase-boundary.ts';
import { limits } from './limits.ts';
import { lineMass } from './line-mass.ts';
import type { Refrigerant } from './refrigerants/mixture-of.ts';
import { requireWithin } from './require-within.ts';
import { saturationAtTemperature } from './refrigerants/saturation-at-temperature.ts';

/** Refrigerant in a metre of line. */
export interface SaturatedLineMass {
  readonly converged: true;
  /** Mass where the line is full of boiling liquid, and where it is full of condensing vapour [kg/m]. */
  readonly liquidKgPerM: number;
  readonly vapourKgPerM: number;
}

/**
 * Mass of saturated refrigerant that a metre of line holds, as liquid and as vapour.
 *
 * For the adder of a line set: what its liquid line takes beyond the factory charge.
 *
 * @param innerVolumeM3PerM inner volume of the tube [m³/m], as `copperTube` gives it
 * @param temperatureK temperature of saturation [K]
 * @returns masses; `converged: false` near the critical point, as `saturationAtTemperature`
 * @throws DryholdError `out-of-range`, as `saturationAtTemperature`, and unless the inner volume is above 0
 *
 * Source: geometry and saturated densities. Accuracy: of the densities; a subcooled liquid is up to some per cent
 * denser, a superheated vapour lighter.
 *
 * @example
 * saturatedLineMass(copperTube(0.009525).innerVolumeM3PerM, refrigerantNamed('R-410A'), 310.928).liquidKgPerM
 * // 0.04846
 */
export function saturatedLineMass(
  innerVolumeM3PerM: number,
  refrigerant: Refrigerant,
  temperatureK: number,
): SaturatedLineMass | NotConverged {
  requireWithin(limits.innerVolume, innerVolumeM3PerM);
  const saturation = saturationAtTemperature(refrigerant, temperatureK);
  if (!saturation.converged) return saturation;
  return {
    converged: true,
    liquidKgPerM: lineMass(innerVolumeM3PerM, saturation.liquidKgPerM3),
    vapourKgPerM: lineMass(innerVolumeM3PerM, saturation.vapourKgPerM3),
  };
}
