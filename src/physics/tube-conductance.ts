/** A gas other than air at 20 °C. */
export interface ConductanceGas {
  /** Temperature [K]. */
  readonly temperatureK: number;
  /** Molar mass [kg/mol]. */
  readonly molarMassKgPerMol: number;
  /** Viscosity at that temperature [Pa·s]; that of air at 20 °C where left out. */
  readonly viscosityPaS?: number;
  /** Ratio of heat capacities, above 1, for flow near the speed of sound; 1.4 where left out. */
  readonly heatCapacityRatio?: number;
}

/** Viscous flow of air at 20 °C, 135 d⁴ p̄ / L in cm, mbar and L/s, as m³/s from m and Pa. */
const VISCOUS_PER_PA_S = 1350;
/** Molecular flow of air at 20 °C, 12.1 d³ / L in cm and L/s, as m³/s from m. */
const MOLECULAR_M_PER_S = 121;
const AIR_K = 293.15;
const AIR_KG_PER_MOL = 0.02897;
/** The viscosity of air that the printed 135 amounts to [Pa·s]. */
const AIR_PA_S = Math.PI / (128 * VISCOUS_PER_PA_S);

/** Mean speed of a gas's molecules against that of air at 20 °C: what molecular flow scales with. */
export function molecularSpeedRatio(gas: ConductanceGas): number {
  return Math.sqrt((gas.temperatureK / AIR_K) * (AIR_KG_PER_MOL / gas.molarMassKgPerMol));
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
  ends: 'ignored' | 'counted' = 'ignored',
): number {
  const scale = gas === undefined ? 1 : molecularSpeedRatio(gas);
  const thinness = gas?.viscosityPaS === undefined ? 1 : AIR_PA_S / gas.viscosityPaS;
  const area = boreM * boreM;
  const viscous = ((VISCOUS_PER_PA_S * area * area * meanPa) / lengthM) * thinness;
  const length = ends === 'counted' ? lengthM + (4 * boreM) / 3 : lengthM;
  const molecular = (MOLECULAR_M_PER_S * area * boreM) / length;
  // What counts is the bore over the mean free path, d p̄ √(M/T) / η: that of air where no viscosity is given.
  const density = gas?.viscosityPaS === undefined ? 1 : thinness / scale;
  // 192 and 237 per mbar·cm are 192 and 237 per Pa·m.
  const slip = (1 + 192 * boreM * meanPa * density) / (1 + 237 * boreM * meanPa * density);
  return viscous + scale * molecular * slip;
}
