import { air } from './air.ts';
import { type ConductanceGas, requireConductanceGas } from './conductance-gas.ts';
import { GAS_CONSTANT_J_PER_MOL_K } from './gas-constant.ts';
import { limits } from './limits.ts';
import { limitsOf, requireWithin } from './require-within.ts';

/**
 * Throughput of an ideal nozzle: the most that an opening passes at high pressure, however low the pressure behind it.
 *
 * For the upper bound of a hose in the rough range, and for how a leak that is a hole grows with pressure.
 *
 * @param areaM2 narrowest area [m²]
 * @param upstreamPa pressure before it [Pa], absolute
 * @param downstreamPa pressure behind it [Pa], absolute, not above `upstreamPa`
 * @param gas temperature before the nozzle [K], molar mass [kg/mol], ratio of heat capacities; air at 20 °C where left
 *   out
 * @returns throughput [Pa·m³/s], at the temperature before the nozzle
 * @throws DryholdError `out-of-range` unless the area is above 0, the pressures are 0 or more, that behind not above
 *   that before, and the gas is one, as `tubeConductance`
 *
 * Once `downstreamPa` is below (2/(γ + 1))^(γ/(γ − 1)) of `upstreamPa` (0.528 for air) the flow is sonic: A × 198.6 m/s
 * × `upstreamPa` for air at 20 °C, which is the 20 L/s per cm² of vacuum textbooks. A flow that does not depend on what
 * lies behind it is no conductance: it bounds, and never enters a sum of 1/C.
 *
 * Source: `isentropic-nozzle`, Q = A p₁ √(RT/M) √(2γ/(γ − 1) (r^(2/γ) − r^((γ + 1)/γ))), r = p₂/p₁ or the critical
 * ratio. Accuracy: exact for an ideal gas without friction; sharp edges pass some 0.6 to 0.85 of it (from memory); in
 * molecular flow an opening passes less (`apertureConductance`).
 *
 * @example
 * nozzleThroughput(0.0001, 101325, 0) // 2012
 */
export function nozzleThroughput(
  areaM2: number,
  upstreamPa: number,
  downstreamPa: number,
  gas: ConductanceGas = air,
): number {
  requireWithin(limits.area, areaM2);
  requireWithin(limits.pressure, upstreamPa);
  requireWithin(limits.pressure, downstreamPa);
  if (downstreamPa > upstreamPa) {
    requireWithin(limitsOf('pressure behind a nozzle [Pa], absolute', { from: 0, to: upstreamPa }), downstreamPa);
  }
  requireConductanceGas(gas);
  return uncheckedNozzleThroughput(areaM2, upstreamPa, downstreamPa, gas);
}

/** `nozzleThroughput` for an inner loop whose arguments were checked before it. */
export function uncheckedNozzleThroughput(
  areaM2: number,
  upstreamPa: number,
  downstreamPa: number,
  gas: ConductanceGas = air,
): number {
  if (!(upstreamPa > 0)) return 0;
  const gamma = gas.heatCapacityRatio ?? 1.4;
  const critical = (2 / (gamma + 1)) ** (gamma / (gamma - 1));
  const ratio = Math.min(1, Math.max(critical, downstreamPa / upstreamPa));
  const factor = ((2 * gamma) / (gamma - 1)) * (ratio ** (2 / gamma) - ratio ** ((gamma + 1) / gamma));
  const speedMPerS = Math.sqrt((GAS_CONSTANT_J_PER_MOL_K * gas.temperatureK) / gas.molarMassKgPerMol);
  return areaM2 * upstreamPa * speedMPerS * Math.sqrt(factor);
}
