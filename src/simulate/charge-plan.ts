import type { Random } from '../numerics/random.ts';
import { type ChargeSlip, lineChargeKg, slippedChargesKg } from './charge-slips.ts';
import type { System } from './system.ts';
import type { Technician } from './technicians.ts';

/** What goes into a system, and what should have. */
export interface ChargePlan {
  /** Charge that the whole system wants, by the true lengths of its lines [kg]. */
  readonly targetKg: number;
  /** What truly goes in, less what should have [kg]; undefined for a top-up, where nobody knows what was left. */
  readonly deviationKg: number | undefined;
  /** What truly goes in [kg]. */
  readonly chargedKg: number;
  readonly slip: ChargeSlip | undefined;
  /** What the slip changes of what is aimed at [kg]. */
  readonly slipKg: number | undefined;
  /** Refrigerant that stays in the charging hose [kg], 0 where nothing is weighed. */
  readonly residualKg: number;
  /** What leaves the cylinder [kg]. */
  readonly drawnKg: number;
}

export interface DrawChargePlanOptions {
  readonly random: Random;
  /** Numbers of its own, for which way a slip is made. */
  readonly slipRandom: Random;
  readonly technician: Technician;
  readonly system: System;
  /** Whether the factory charge is already in it. */
  readonly preCharged: boolean;
  /** What would stay in the charging hose [kg]. */
  readonly residualKg: number;
}

/** A slip that changes less than this is none [kg]. */
const SMALLEST_SLIP_KG = 0.02;

/** Draws what a technician puts in; most aim right by the recorded lengths, and miss by some grams. */
export function drawChargePlan(options: DrawChargePlanOptions): ChargePlan {
  const { random, slipRandom, technician, system, preCharged } = options;
  const ownKg = preCharged ? 0 : system.factoryChargeKg;
  const lineKg = lineChargeKg(system, 'true');
  const rightKg = ownKg + lineChargeKg(system);
  let slip: ChargeSlip | undefined;
  for (const [name, probability] of Object.entries(technician.slips) as [ChargeSlip, number][]) {
    if (random.chance(probability) && slip === undefined) slip = name;
  }
  let aimKg =
    slip === undefined
      ? rightKg
      : slipRandom.choice(slippedChargesKg(slip, rightKg, system, preCharged, options.residualKg));
  if (Math.abs(aimKg - rightKg) < SMALLEST_SLIP_KG) {
    slip = undefined;
    aimKg = rightKg;
  }
  const missKg = random.normal(0, random.chance(0.05) ? 0.06 : 0.006);
  const chargedKg = aimKg > 0.01 ? Math.max(0.01, aimKg + missKg) : 0;
  const residualKg = chargedKg > 0 ? options.residualKg : 0;
  return {
    targetKg: system.factoryChargeKg + lineKg,
    deviationKg: chargedKg - ownKg - lineKg,
    chargedKg,
    slip,
    slipKg: slip === undefined ? undefined : aimKg - rightKg,
    residualKg,
    drawnKg: chargedKg + residualKg,
  };
}

/** Draws what is added to a system that still holds some of its charge. */
export function drawTopUp(random: Random, system: System, residualKg: number): ChargePlan {
  const targetKg = system.factoryChargeKg + lineChargeKg(system, 'true');
  const chargedKg = targetKg * random.uniform(0.08, 0.5);
  const drawnKg = chargedKg + residualKg;
  return { targetKg, deviationKg: undefined, chargedKg, slip: undefined, slipKg: undefined, residualKg, drawnKg };
}
