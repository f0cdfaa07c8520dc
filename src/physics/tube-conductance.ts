/** A gas other than air at 20 °C. */
export interface ConductanceGas {
  /** Temperature [K]. */
  readonly temperatureK: number;
  /** Molar mass [kg/mol]. */
  readonly molarMassKgPerMol: number;
}

/** Viscous flow of air at 20 °C, 135 d⁴ p̄ / L in cm, mbar and L/s, as m³/s from m and Pa. */
const VISCOUS_PER_PA_S = 1350;
/** Molecular flow of air at 20 °C, 12.1 d³ / L in cm and L/s, as m³/s from m. */
const MOLECULAR_M_PER_S = 121;
const AIR_K = 293.15;
const AIR_KG_PER_MOL = 0.02897;

/**
 * Conductance of a long round tube in every regime of flow (Knudsen's form).
 *
 * For what a hose or a line lets through while a system is evacuated: it falls as the vacuum deepens.
 *
 * @param boreM inner diameter [m]
 * @param lengthM length [m]; long against the bore, the entrance is not counted
 * @param meanPa mean of the pressures at both ends [Pa], absolute; 0 gives the molecular limit
 * @param gas temperature [K] and molar mass [kg/mol]; air at 20 °C where left out. Scales the molecular part alone:
 *   the viscous part keeps the viscosity of air.
 * @returns conductance [m³/s]
 *
 * Source: `vacuum-conductance`, C = 135 (d⁴/L) p̄ + 12.1 (d³/L) (1 + 192 d p̄)/(1 + 237 d p̄), in cm, mbar, L/s.
 * Accuracy: the constants are printed to three figures; the viscous part has no choking at high pressure.
 *
 * @example
 * tubeConductance(0.05, 1, 0) // 0.015125
 */
export function tubeConductance(boreM: number, lengthM: number, meanPa: number, gas?: ConductanceGas): number {
  const scale =
    gas === undefined ? 1 : Math.sqrt((gas.temperatureK / AIR_K) * (AIR_KG_PER_MOL / gas.molarMassKgPerMol));
  const area = boreM * boreM;
  const viscous = (VISCOUS_PER_PA_S * area * area * meanPa) / lengthM;
  const molecular = (MOLECULAR_M_PER_S * area * boreM) / lengthM;
  // 192 and 237 per mbar·cm are 192 and 237 per Pa·m.
  const slip = (1 + 192 * boreM * meanPa) / (1 + 237 * boreM * meanPa);
  return viscous + scale * molecular * slip;
}
