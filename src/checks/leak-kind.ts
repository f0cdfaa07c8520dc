import type { Facts } from '../records/tables/facts.ts';

// All of a charge, where none is known [kg]: a large split system's. Common practice, no source.
const usualChargeKg = 20;
/** From this share of a rise on its equalisation is told apart. */
const settlingShare = 0.2;

/** How a sure leak is told: all of the rise, what came after its equalisation, or what did not slacken of it. */
export function leakKind({ rise_shape, rise_pa = 0, vapour_rise_pa, settling_rise_pa = 0 }: Partial<Facts>) {
  if (rise_shape === 'mixed' && vapour_rise_pa !== undefined) return 'mixed';
  return settling_rise_pa > settlingShare * rise_pa ? 'settled' : 'leak';
}

/** Whether what it would lose is said as a figure or as the whole charge; undefined where it is not known. */
export function lossSize(facts: Partial<Facts>): 'sized' | 'whole-charge' | undefined {
  const { tested_volume_l, leak_loss_low_kg_per_year: lowKg, leak_loss_high_kg_per_year: highKg } = facts;
  if (tested_volume_l === undefined || lowKg === undefined || highKg === undefined) return undefined;
  const { charge_target_kg: targetKg = 0 } = facts;
  return highKg > (targetKg > 0 ? targetKg : usualChargeKg) ? 'whole-charge' : 'sized';
}
