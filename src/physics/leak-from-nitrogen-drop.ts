import { phaseState } from './equations/phase-state.ts';
import { GAS_CONSTANT_J_PER_MOL_K } from './gas-constant.ts';
import { limits } from './limits.ts';
import { nitrogenDensity, nitrogenGas } from './nitrogen-density.ts';
import { requireWithin } from './require-within.ts';

/** A steady drop in a standing nitrogen test. */
export interface LeakFromNitrogenDropOptions {
  /** Volume that the drop was seen in [m³]. */
  readonly volumeM3: number;
  /** Steady drop [Pa/s], corrected for temperature; below 0 where the pressure rises. */
  readonly dropPaPerS: number;
  /** Pressure of the test [Pa], absolute. */
  readonly testPa: number;
  /** Temperature of the gas [K], from 126.192 (critical point) to 1000. */
  readonly temperatureK: number;
}

/**
 * Leak that a steady drop in a standing nitrogen test amounts to, the drop small beside the pressure.
 *
 * For the size of a leak seen under pressure, in the same unit as one seen in vacuum. It counts what was lost as an
 * ideal gas of that temperature would count it, so that `molarLeak` gives the moles.
 *
 * @returns leak [Pa·m³/s], at the temperature of the gas, its sign that of the drop
 * @throws DryholdError `out-of-range` unless the volume is above 0 and the drop finite, and as `nitrogenDensity`
 *
 * Source: Q = V Δp/Δt × (∂ρ/∂p)_T RT/M, with ρ by `span-2000`; at constant volume and temperature. Accuracy: the
 * factor (∂ρ/∂p)_T RT/M, by which a real gas differs, within 0.001 % of CoolProp 8.0 at −40…60 °C up to 5 MPa: 1.008 at
 * 500 psig and 20 °C, 0.993 to 1.024 at 0…40 °C. The volume is the larger error by far.
 *
 * @example
 * leakFromNitrogenDrop({ volumeM3: 0.005, dropPaPerS: 6894.757 / 86400, testPa: 3548704, temperatureK: 294.261 })
 * // 0.000402
 */
export function leakFromNitrogenDrop(options: LeakFromNitrogenDropOptions): number {
  const { volumeM3, dropPaPerS, testPa, temperatureK } = options;
  requireWithin(limits.volume, volumeM3);
  requireWithin(limits.signedDrop, dropPaPerS);
  const densityMolPerM3 = nitrogenDensity(temperatureK, testPa) / nitrogenGas.molarMassKgPerMol;
  const { stiffnessPaM3PerMol } = phaseState(nitrogenGas, temperatureK, densityMolPerM3, nitrogenGas.moleFractions);
  return volumeM3 * dropPaPerS * ((GAS_CONSTANT_J_PER_MOL_K * temperatureK) / stiffnessPaM3PerMol);
}
