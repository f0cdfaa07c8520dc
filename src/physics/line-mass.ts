import { limits } from './limits.ts';
import { requireWithin } from './require-within.ts';

/**
 * Mass of refrigerant that a metre of line holds.
 *
 * For the charge that a line set needs beyond the factory charge: liquid in the liquid line, vapour in the suction
 * line.
 *
 * @param innerVolumeM3PerM inner volume of the tube [m³/m], as `copperTube` gives it
 * @param densityKgPerM3 density of the refrigerant at its pressure and temperature there [kg/m³]
 * @returns mass [kg/m]
 * @throws DryholdError `out-of-range` unless the inner volume is above 0 and the density 0 or more
 *
 * Source: geometry; the line is full and its density the same all along. Accuracy: exact for that; the rows in
 * `line-set-rows` are met within half of their last place.
 *
 * @example
 * lineMass(copperTube(0.009525).innerVolumeM3PerM, 989.2) // 0.04848
 */
export function lineMass(innerVolumeM3PerM: number, densityKgPerM3: number): number {
  requireWithin(limits.innerVolume, innerVolumeM3PerM);
  requireWithin(limits.density, densityKgPerM3);
  return innerVolumeM3PerM * densityKgPerM3;
}
