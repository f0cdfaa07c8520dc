import { type ConductanceGas, requireConductanceGas } from './conductance-gas.ts';
import { limits } from './limits.ts';
import { requireWithin } from './require-within.ts';
import { molecularSpeedRatio } from './tube-conductance.ts';

/** Molecular flow of air at 20 °C, 11.6 A in cm² and L/s, as m³/s from m². */
const AIR_M_PER_S = 116;

/**
 * Conductance of a thin opening in molecular flow.
 *
 * For the most that an opening lets through in deep vacuum: a valve's seat, the mouth of a tube.
 *
 * @param areaM2 area of the opening [m²]
 * @param gas temperature [K] and molar mass [kg/mol]; air at 20 °C where left out
 * @returns conductance [m³/s], at any pressure low enough (bore × pressure below some 0.01 Pa·m)
 * @throws DryholdError `out-of-range` unless the area is above 0 and the gas is one, as `tubeConductance`
 *
 * Source: `vacuum-conductance`, 11.6 A, printed to three figures; kinetic theory, √(RT/2πM), gives 115.71 m/s.
 * Accuracy: 0.3 %, in molecular flow; above it a nozzle's flow takes over (`nozzleThroughput`).
 *
 * @example
 * apertureConductance(0.002) // 0.232
 */
export function apertureConductance(areaM2: number, gas?: ConductanceGas): number {
  requireWithin(limits.area, areaM2);
  if (gas !== undefined) requireConductanceGas(gas);
  return AIR_M_PER_S * areaM2 * (gas === undefined ? 1 : molecularSpeedRatio(gas));
}
