import { chargeFault, largestChargeFault } from '../../physics/charge-fault.ts';
import type { Facts } from '../../records/tables/facts.ts';

/** Rating conditions in cooling: 80 °F indoors, 95 °F outdoors [K]. */
const indoorK = 299.82;
const outdoorK = 308.15;

/** What a deviation costs in cooling at rating conditions; beyond the model, what its end costs. */
export function chargeCostFacts(deviationKg: number, targetKg: number): Partial<Facts> {
  if (!(targetKg > 0)) return {};
  const deviationRatio = Math.min(largestChargeFault, Math.max(-largestChargeFault, deviationKg / targetKg));
  const { capacityRatio, copRatio } = chargeFault({ mode: 'cooling', deviationRatio, indoorK, outdoorK });
  return { charge_capacity_ratio: capacityRatio, charge_cop_ratio: copRatio };
}
