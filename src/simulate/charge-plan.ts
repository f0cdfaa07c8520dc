import type { Random } from '../numerics/random.ts';
import { type ChargeSlip, lineChargeKg, slippedChargeKg } from './charge-slips.ts';
import type { System } from './system.ts';
import type { Technician } from './technicians.ts';

/** What goes into a system, and what should have. */
export interface ChargePlan {
  /** Charge that the whole system wants [kg]. */
  readonly targetKg: number;
  /** What truly goes in, less what should have [kg]; undefined for a top-up, where nobody knows what was left. */
  readonly deviationKg: number | undefined;
  /** What truly goes in [kg]. */
  readonly chargedKg: number;
  readonly slip: ChargeSlip | undefined;
  /** Refrigerant that stays in the hoses [kg], 0 where nothing is weighed. */
  readonly residualKg: number;
  /** What leaves the cylinder [kg]. */
  readonly drawnKg: number;
}

/** A slip that changes less than this is none [kg]. */
const SMALLEST_SLIP_KG = 0.02;

/** Draws what a technician puts in; most aim right and miss by some grams. */
export function drawChargePlan(
  random: Random,
  technician: Technician,
  system: System,
  preCharged: boolean,
  hoseBoreMm: number,
): ChargePlan {
  const targetKg = system.factoryChargeKg + lineChargeKg(system);
  const rightKg = preCharged ? targetKg - system.factoryChargeKg : targetKg;
  const hoseResidualKg = drawResidualKg(random, hoseBoreMm);
  let slip: ChargeSlip | undefined;
  for (const [name, probability] of Object.entries(technician.slips) as [ChargeSlip, number][]) {
    if (random.chance(probability) && slip === undefined) slip = name;
  }
  let aimKg = slip === undefined ? rightKg : slippedChargeKg(slip, rightKg, system, preCharged, hoseResidualKg);
  if (Math.abs(aimKg - rightKg) < SMALLEST_SLIP_KG) {
    slip = undefined;
    aimKg = rightKg;
  }
  const missKg = random.normal(0, random.chance(0.05) ? 0.06 : 0.006);
  const chargedKg = aimKg > 0.01 ? Math.max(0.01, aimKg + missKg) : 0;
  const residualKg = chargedKg > 0 ? hoseResidualKg : 0;
  const deviationKg = chargedKg - rightKg;
  return { targetKg, deviationKg, chargedKg, slip, residualKg, drawnKg: chargedKg + residualKg };
}

/** Draws what is added to a system that still holds some of its charge. */
export function drawTopUp(random: Random, system: System, hoseBoreMm: number): ChargePlan {
  const targetKg = system.factoryChargeKg + lineChargeKg(system);
  const chargedKg = targetKg * random.uniform(0.08, 0.5);
  const residualKg = drawResidualKg(random, hoseBoreMm);
  return { targetKg, deviationKg: undefined, chargedKg, slip: undefined, residualKg, drawnKg: chargedKg + residualKg };
}

/** Liquid that stays in the charging hose [kg]; thicker hoses keep more. */
function drawResidualKg(random: Random, hoseBoreMm: number): number {
  return random.uniform(0.012, 0.03) * (hoseBoreMm / 6.4);
}
