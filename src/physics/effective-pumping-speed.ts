/**
 * Pumping speed that a system feels through whatever stands between it and the pump.
 *
 * For predicting a pull-down from the pump's speed, the hose and the valve cores.
 *
 * @param pumpSpeedM3PerS speed at the pump's inlet [m³/s]
 * @param conductancesM3PerS conductances in series [m³/s], any number
 * @returns effective speed [m³/s]; 0 where the pump or any conductance is 0
 *
 * Source: `vacuum-conductance`, 1/S_eff = 1/S + Σ 1/C. Accuracy: exact for conductances that do not depend on each other.
 *
 * @example
 * effectivePumpingSpeed(0.029722, 0.017123) // 0.010864
 */
export function effectivePumpingSpeed(pumpSpeedM3PerS: number, ...conductancesM3PerS: readonly number[]): number {
  let resistanceSPerM3 = 1 / pumpSpeedM3PerS;
  for (const conductance of conductancesM3PerS) resistanceSPerM3 += 1 / conductance;
  return 1 / resistanceSPerM3;
}
