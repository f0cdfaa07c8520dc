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

/**
 * Whether what a leak would lose is said as a figure or as the whole charge; undefined where it is not known.
 *
 * @param lowKg what it would lose in a year at least, and `highKg` at most [kg]
 */
export function lossSize(
  { tested_volume_l, charge_target_kg: targetKg = 0 }: Partial<Facts>,
  lowKg: number | undefined,
  highKg: number | undefined,
): 'sized' | 'whole-charge' | undefined {
  if (tested_volume_l === undefined || lowKg === undefined || highKg === undefined) return undefined;
  return highKg > (targetKg > 0 ? targetKg : usualChargeKg) ? 'whole-charge' : 'sized';
}
