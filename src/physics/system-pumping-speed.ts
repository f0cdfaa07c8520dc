import { DryholdError } from '../errors.ts';
import { bracketedRoot } from '../numerics/bracketed-root.ts';
import { limits } from './limits.ts';
import { requireWithin } from './require-within.ts';
import type { Passage } from './tube-passage.ts';

/** A pump and all that stands between it and the system. */
export interface PumpedThrough {
  /** Speed at the pump's inlet [m³/s], constant. */
  readonly pumpSpeedM3PerS: number;
  /** Pressure at its inlet that the pump cannot go below [Pa], absolute; 0 where left out. */
  readonly floorPa?: number;
  /** What the gas goes through, from the system to the pump; none is a pump right at the system. */
  readonly passages: readonly Passage[];
}

/**
 * Pumping speed that a system feels at a pressure, through hoses whose conductance depends on the pressures at their
 * ends.
 *
 * For how much of a pump arrives: the speed falls as the vacuum deepens, since every hose passes less.
 *
 * @param pump the pump and its passages
 * @param systemPa pressure in the system [Pa], absolute
 * @returns speed [m³/s]: throughput over `systemPa`; 0 where `systemPa` is not above the pump's floor
 * @throws DryholdError `out-of-range` unless speed and pressures are 0 or more; `not-converged` where a passage breaks
 *   the rules of `Passage`, so that no pressure behind it is found
 *
 * The same gas flows through everything: the pressures between are those at which each passage, and the pump (S (p −
 * floor)), takes the same throughput. Each hose so works at the mean of its own two ends, and not of the system's
 * pressure: with a pump much faster than the hose that mean is near half of it.
 *
 * Source: `vacuum-conductance`, Q = C (p₁ − p₂) = S (p₂ − floor). Accuracy: pressures between are solved to 1e-12;
 * against the closed forms for constant C and for C ∝ p̄ within 1e-11.
 *
 * @example
 * systemPumpingSpeed({ pumpSpeedM3PerS: 0.00283, passages: [tubePassage(0.004826, 1.524)] }, 66.661) // 0.0000232
 */
export function systemPumpingSpeed(pump: PumpedThrough, systemPa: number): number {
  requireWithin(limits.speed, pump.pumpSpeedM3PerS);
  requireWithin(limits.pressure, pump.floorPa ?? 0);
  requireWithin(limits.pressure, systemPa);
  return systemPa > 0 ? throughput(pump, 0, systemPa - (pump.floorPa ?? 0)) / systemPa : 0;
}

/** Throughput [Pa·m³/s] of the passages from one on and the pump, by the pressure before them above the floor [Pa]. */
function throughput(pump: PumpedThrough, first: number, upstreamAbovePa: number): number {
  const { pumpSpeedM3PerS, floorPa = 0, passages } = pump;
  if (!(upstreamAbovePa > 0)) return 0;
  if (first === passages.length) return pumpSpeedM3PerS * upstreamAbovePa;
  const passage = passages[first];
  const upstreamPa = floorPa + upstreamAbovePa;
  const behindAbovePa = bracketedRoot(
    (abovePa) => passage(upstreamPa, floorPa + abovePa) - throughput(pump, first + 1, abovePa),
    0,
    upstreamAbovePa,
  );
  if (Number.isNaN(behindAbovePa)) {
    throw new DryholdError('not-converged', { quantity: `pressure [Pa] behind passage ${first} at ${upstreamPa} Pa` });
  }
  return throughput(pump, first + 1, behindAbovePa);
}
