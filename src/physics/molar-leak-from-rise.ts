import { limits } from './limits.ts';
import { requireWithin } from './require-within.ts';

/** A vacuum-decay test between two instants. */
export interface MolarLeakFromRiseOptions {
  /** Volume that the rise was seen in [m³]. */
  readonly volumeM3: number;
  /** Pressure at the start and at the end [Pa], absolute. */
  readonly startPa: number;
  readonly endPa: number;
  /** Temperature of the gas at the start and at the end [K]. */
  readonly startK: number;
  readonly endK: number;
  /** Time between them [s], above 0. */
  readonly durationS: number;
}

/** Molar gas constant as the regulation uses it [J/(mol K)]. */
const GAS_CONSTANT_J_PER_MOL_K = 8.314472;

/**
 * Leak in moles per second from a vacuum-decay test, corrected for a change of temperature.
 *
 * For a rise test during which the pipes warmed or cooled.
 *
 * @returns leak [mol/s]; negative where the gas got less
 * @throws DryholdError `out-of-range` unless volume, temperatures and time are above 0 and pressures 0 or more
 *
 * Source: `40-cfr-1065-644`, Eq. 1065.644-1. Accuracy: ideal gas, which holds at these pressures.
 *
 * @example
 * molarLeakFromRise({ volumeM3: 0.002, startPa: 25300, endPa: 50600, startK: 293.15, endK: 293.15, durationS: 70 })
 * // 0.00029657
 */
export function molarLeakFromRise(options: MolarLeakFromRiseOptions): number {
  const { volumeM3, startPa, endPa, startK, endK, durationS } = options;
  requireWithin(limits.volume, volumeM3);
  requireWithin(limits.pressure, startPa);
  requireWithin(limits.pressure, endPa);
  requireWithin(limits.temperature, startK);
  requireWithin(limits.temperature, endK);
  requireWithin(limits.duration, durationS);
  return ((volumeM3 / GAS_CONSTANT_J_PER_MOL_K) * (endPa / endK - startPa / startK)) / durationS;
}
