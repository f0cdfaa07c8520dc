import { bracketedRoot } from '../numerics/bracketed-root.ts';
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
  return systemPa > 0 ? throughput(pump, 0, systemPa) / systemPa : 0;
}

/** Throughput [Pa·m³/s] of the passages from one on and the pump. */
function throughput(pump: PumpedThrough, first: number, upstreamPa: number): number {
  const { pumpSpeedM3PerS, floorPa = 0, passages } = pump;
  if (!(upstreamPa > floorPa)) return 0;
  if (first === passages.length) return pumpSpeedM3PerS * (upstreamPa - floorPa);
  const passage = passages[first];
  const behindPa = bracketedRoot(
    (pressurePa) => passage(upstreamPa, pressurePa) - throughput(pump, first + 1, pressurePa),
    floorPa,
    upstreamPa,
  );
  return throughput(pump, first + 1, behindPa);
}
