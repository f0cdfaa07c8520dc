import { limits } from './limits.ts';
import { requireWithin } from './require-within.ts';

/**
 * Pumping speed that a system feels through whatever stands between it and the pump.
 *
 * For predicting a pull-down from the pump's speed, the hose and the valve cores.
 *
 * @param pumpSpeedM3PerS speed at the pump's inlet [m³/s]
 * @param conductancesM3PerS conductances in series [m³/s], any number; infinite where nothing is in the way
 * @returns effective speed [m³/s]; 0 where the pump or any conductance is 0
 * @throws DryholdError `out-of-range` below 0
 *
 * Source: `vacuum-conductance`, 1/S_eff = 1/S + Σ 1/C. Accuracy: exact for conductances that do not depend on each
 * other.
 *
 * @example
 * effectivePumpingSpeed(0.029722, 0.017123) // 0.010864
 */
export function effectivePumpingSpeed(pumpSpeedM3PerS: number, ...conductancesM3PerS: readonly number[]): number {
  requireWithin(limits.speed, pumpSpeedM3PerS);
  let resistanceSPerM3 = 1 / pumpSpeedM3PerS;
  for (const conductanceM3PerS of conductancesM3PerS) {
    requireWithin(limits.conductance, conductanceM3PerS);
    resistanceSPerM3 += 1 / conductanceM3PerS;
  }
  return 1 / resistanceSPerM3;
}
