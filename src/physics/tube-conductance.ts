import { air } from './air.ts';
import { type ConductanceGas, requireConductanceGas } from './conductance-gas.ts';
import { limits } from './limits.ts';
import { requireWithin } from './require-within.ts';

/** Viscous flow of air at 20 °C, 135 d⁴ p̄ / L in cm, mbar and L/s, as m³/s from m and Pa. */
const VISCOUS_PER_PA_S = 1350;
/** Molecular flow of air at 20 °C, 12.1 d³ / L in cm and L/s, as m³/s from m. */
const MOLECULAR_M_PER_S = 121;
/** The viscosity of air that the printed 135 amounts to [Pa·s]. */
const AIR_PA_S = Math.PI / (128 * VISCOUS_PER_PA_S);

/** Whether the ends of a tube count. */
type Ends = 'ignored' | 'counted';

/** Mean speed of a gas's molecules against that of air at 20 °C: what molecular flow scales with. */
export function molecularSpeedRatio(gas: ConductanceGas): number {
  return Math.sqrt((gas.temperatureK / air.temperatureK) * (air.molarMassKgPerMol / gas.molarMassKgPerMol));
}

/**
 * Conductance of a round tube in every regime of flow (Knudsen's form).
 *
 * For what a hose or a line lets through while a system is evacuated: it falls as the vacuum deepens.
 *
 * @param boreM inner diameter [m]
 * @param lengthM length [m]
 * @param meanPa mean of the pressures at both ends [Pa], absolute; 0 gives the molecular limit
 * @param gas temperature [K], molar mass [kg/mol] and viscosity [Pa·s]; air at 20 °C where left out. Without a
 *   viscosity temperature and mass scale the molecular part alone: the viscous part keeps the viscosity of air.
 * @param ends `ignored` for a tube long against its bore; `counted` makes the molecular part 1 + 4d/3L times smaller,
 *   so that it ends in an aperture's where the tube is short. The viscous part knows no ends: see `tubePassage`.
 * @returns conductance [m³/s]
 * @throws DryholdError `out-of-range` unless bore and length are above 0, the pressure is 0 or more and the gas is one
 *   (molar mass 0.001 to 1 kg/mol, the rest above 0)
 *
 * Source: `vacuum-conductance`, C = 135 (d⁴/L) p̄ + 12.1 (d³/L) (1 + 192 d p̄)/(1 + 237 d p̄), in cm, mbar, L/s; short
 * tubes (12.1 d³/L)/(1 + 4d/3L). Another gas: π d⁴ p̄/(128 η L), and 192 and 237 scaled with the mean free path, as
 * Knudsen's general form has them. Accuracy: the constants are printed to three figures. Laminar: no choking and no
 * turbulence at high pressure (there it gives too much), and the ends count in molecular flow alone. The short-tube
 * form lies up to 12 % above the exact transmission (Clausing's, from memory) where the length is one to two bores.
 *
 * @example
 * tubeConductance(0.05, 1, 0) // 0.015125
 */
export function tubeConductance(
  boreM: number,
  lengthM: number,
  meanPa: number,
  gas?: ConductanceGas,
  ends: Ends = 'ignored',
): number {
  requireWithin(limits.bore, boreM);
  requireWithin(limits.length, lengthM);
  requireWithin(limits.pressure, meanPa);
  if (gas !== undefined) requireConductanceGas(gas);
  return uncheckedTubeConductance(boreM, lengthM, meanPa, gas, ends);
}

/** `tubeConductance` for an inner loop whose arguments were checked before it. */
export function uncheckedTubeConductance(
  boreM: number,
  lengthM: number,
  meanPa: number,
  gas: ConductanceGas | undefined,
  ends: Ends,
): number {
  const speedRatio = gas === undefined ? 1 : molecularSpeedRatio(gas);
  const thinness = gas?.viscosityPaS === undefined ? 1 : AIR_PA_S / gas.viscosityPaS;
  const boreSquaredM2 = boreM * boreM;
  const viscousM3PerS = ((VISCOUS_PER_PA_S * boreSquaredM2 * boreSquaredM2 * meanPa) / lengthM) * thinness;
  const molecularLengthM = ends === 'counted' ? lengthM + (4 * boreM) / 3 : lengthM;
  const molecularM3PerS = (MOLECULAR_M_PER_S * boreSquaredM2 * boreM) / molecularLengthM;
  // Air's mean free path over this gas's, which goes with η √(T/M) / p̄: air's own where no viscosity is given.
  const freePathRatio = gas?.viscosityPaS === undefined ? 1 : thinness / speedRatio;
  // 192 and 237 per mbar·cm are 192 and 237 per Pa·m.
  const slip = (1 + 192 * boreM * meanPa * freePathRatio) / (1 + 237 * boreM * meanPa * freePathRatio);
  return viscousM3PerS + speedRatio * molecularM3PerS * slip;
}
