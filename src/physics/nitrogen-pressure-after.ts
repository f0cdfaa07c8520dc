import { phaseState } from './equations/phase-state.ts';
import { nitrogenDensity, nitrogenGas, requireNitrogenGas } from './nitrogen-density.ts';

/** Nitrogen in a closed volume at two instants. */
export interface NitrogenPressureAfterOptions {
  /** Pressure at the first [Pa], absolute. */
  readonly startPa: number;
  /** Temperature of the gas at the first and at the second [K], from 126.192 (critical point) to 1000. */
  readonly startK: number;
  readonly endK: number;
  /** `ideal` for what published examples compute, p ∝ T; `real` where left out. */
  readonly gas?: 'real' | 'ideal';
}

/**
 * Pressure of nitrogen in a closed, tight volume after a change of its temperature.
 *
 * For a standing pressure test: what the gauge should show at the end, if nothing was lost.
 *
 * @returns pressure [Pa], absolute
 * @throws DryholdError as `nitrogenDensity`, whichever the gas
 *
 * Source: `span-2000`, at constant density. Accuracy: as `nitrogenDensity`; the swelling of the tube is left out, and the gas is
 * seldom as warm throughout as the place where it is measured. An ideal gas moves 9 % less at 600 psig and 70 °F.
 *
 * @example
 * nitrogenPressureAfter({ startPa: 4238184, startK: 294.261, endK: 310.928 }) // 4502302
 */
export function nitrogenPressureAfter(options: NitrogenPressureAfterOptions): number {
  const { startPa, startK, endK, gas = 'real' } = options;
  requireNitrogenGas(startK, startPa);
  requireNitrogenGas(endK);
  if (gas === 'ideal') return (startPa * endK) / startK;
  const densityMolPerM3 = nitrogenDensity(startK, startPa) / nitrogenGas.molarMassKgPerMol;
  return phaseState(nitrogenGas, endK, densityMolPerM3, nitrogenGas.moleFractions).pressurePa;
}
