import { chargeFault, largestChargeFault } from '../../physics/charge-fault.ts';
import type { Facts } from '../../records/tables/facts.ts';

/** Rating conditions in cooling: 80 °F indoors, 95 °F outdoors [K]. */
const indoorK = 299.82;
const outdoorK = 308.15;

/** What a deviation costs in cooling at rating conditions, as far as the model reaches. */
export function chargeCostFacts(deviationKg: number, targetKg: number): Partial<Facts> {
  const deviationRatio = deviationKg / targetKg;
  if (!(targetKg > 0) || Math.abs(deviationRatio) > largestChargeFault) return {};
  const { capacityRatio, copRatio } = chargeFault({ mode: 'cooling', deviationRatio, indoorK, outdoorK });
  return { charge_capacity_ratio: capacityRatio, charge_cop_ratio: copRatio };
}
