import { z } from 'zod';
import { YEAR_S } from '../../physics/year.ts';
import { check, limit } from '../check.ts';
import { pressureHoldExamples, pressureHoldMessages, pressureHoldOrProblem } from '../pressure-test-problem.ts';

// An hour at 300 psig at sea level, the first ten minutes for settling, or a quarter of one. About what 1 psi and 6 psi
// in that time amount to in 5 L of R-410A; the examples only show how it is said.
const seen = {
  pressure_readings: 900,
  pressure_hold_start_s: 300,
  pressure_hold_end_s: 3900,
  held_test_pa: 2169752,
  read_drop_pa: 0,
  end_line_k: 294.26,
  pressure_drop_pa: 0,
  smallest_drop_seen_pa: 6900,
  tested_volume_l: 5,
  smallest_test_loss_low_kg_per_year: 4.5,
  smallest_test_loss_high_kg_per_year: 6.6,
};
const blind = {
  ...seen,
  pressure_hold_end_s: 1200,
  smallest_drop_seen_pa: 41368,
  smallest_test_loss_low_kg_per_year: 136,
  smallest_test_loss_high_kg_per_year: 198,
};
const noClamp = { ...seen, end_line_k: undefined, pressure_drop_pa: undefined, smallest_drop_seen_pa: undefined };

const least =
  'The least drop that this hold of {hold_s} would have told, four times of five, is {smallest_drop_seen_pa}.';
const loss =
  'A leak of that size would lose between {smallest_test_loss_low_kg_per_year} and {smallest_test_loss_high_kg_per_year} a year, standing at 70 °F (21 °C), as an order of magnitude';

/** Whether the pressure test could have seen a leak that takes the charge in no time. */
export const pressureTestBlind = check({
  id: 'pressure-test-blind',
  group: 'pressure-test',
  asks: 'test-made',
  revisit: 'leak',
  question: 'Could the pressure test have seen a leak that takes the charge within a week?',
  needs: ['smallest_drop_seen_pa', 'smallest_test_loss_high_kg_per_year'],
  limits: {
    within_s: limit({
      description: 'A leak that would take the charge within this time must show; the default is a week',
      unit: 's',
      schema: z.number().positive().max(1e9),
      default: 604800,
      source: 'common-practice',
    }),
    charge_kg: limit({
      description: 'Charge where that of the system is not known: of a small split system',
      unit: 'kg',
      schema: z.number().positive().max(50000),
      default: 2,
      source: 'common-practice',
    }),
  },
  messages: {
    ...pressureHoldMessages,
    sees: `${least} ${loss}: the {charge_kg} of charge would take {emptied_s} at least. A slower leak may go unseen.`,
    blind: `${least} ${loss}: the {charge_kg} of charge may be gone in {emptied_s}, sooner than the {within_s} within which a leak must show. A longer hold, a gauge with a finer step or a clamp closer to the gas shows smaller ones; dryhold plan tells how long a hold it takes.`,
    'not-sized': `${least} What leak that is cannot be said where the tested volume or the refrigerant is not known.`,
    'no-temperature':
      'The temperature of the pipe was not logged from end to end, and gas that cools looks like a leak; so how small a leak would have shown is not known.',
    'not-known': 'The hold does not have the readings that it takes to tell how small a drop would have shown.',
  },
  teach:
    'A short hold with a coarse gauge passes everything, the more so the larger the circuit. Hold for longer, use a gauge with a finer step, and log the pipe with a good clamp out of the sun. Never make up for it with pressure: the ratings of the parts stand. Ask dryhold plan how long a hold must be for the leak that must not be missed.',
  references: ['leak-regimes', 'common-practice'],
  examples: [
    { name: 'an hour with a fine gauge', facts: seen, outcome: 'pass', message: 'sees' },
    { name: 'a quarter of an hour with a coarse one', facts: blind, outcome: 'suspect', message: 'blind' },
    {
      name: 'the hour, where a leak must show that takes a month',
      facts: { ...seen, charge_target_kg: 0.5 },
      limits: { within_s: 2592000 },
      outcome: 'suspect',
      message: 'blind',
    },
    {
      name: 'the volume is not known',
      facts: { ...seen, smallest_test_loss_low_kg_per_year: undefined, smallest_test_loss_high_kg_per_year: undefined },
      outcome: 'not-evaluated',
      message: 'not-sized',
    },
    { name: 'no clamp', facts: noClamp, outcome: 'not-evaluated', message: 'no-temperature' },
    {
      name: 'the drop was not made out',
      facts: { ...seen, pressure_drop_pa: undefined, smallest_drop_seen_pa: undefined },
      outcome: 'not-evaluated',
      message: 'not-known',
    },
    ...pressureHoldExamples,
  ],
  judge(facts, { within_s, charge_kg }) {
    const hold = pressureHoldOrProblem(facts);
    if ('problem' in hold) return hold.problem;
    const { smallest_drop_seen_pa: leastPa } = facts;
    const { smallest_test_loss_low_kg_per_year: lowKg, smallest_test_loss_high_kg_per_year: highKg } = facts;
    const evidence = {
      hold_s: hold.holdS,
      held_test_pa: hold.heldPa,
      atmosphere_pa: hold.airPa,
      smallest_drop_seen_pa: leastPa,
      smallest_test_loss_low_kg_per_year: lowKg,
      smallest_test_loss_high_kg_per_year: highKg,
      tested_volume_l: facts.tested_volume_l,
      tested_volume_basis: facts.tested_volume_basis,
    };
    if (facts.pressure_drop_pa === undefined || leastPa === undefined) {
      const isUnclamped = facts.end_line_k === undefined && facts.read_drop_pa !== undefined;
      return { outcome: 'not-evaluated', message: isUnclamped ? 'no-temperature' : 'not-known', evidence };
    }
    if (lowKg === undefined || highKg === undefined)
      return { outcome: 'not-evaluated', message: 'not-sized', evidence };
    const { charge_target_kg: targetKg = 0 } = facts;
    const isKnown = targetKg > 0;
    const chargeKg = isKnown ? targetKg : charge_kg.value;
    // A loss so small that it is none takes forever.
    const emptied_s = Math.min(1e9, (chargeKg / Math.max(1e-9, highKg)) * YEAR_S);
    const result = {
      value: emptied_s,
      limit: within_s.value,
      unit: 's' as const,
      evidence: {
        ...evidence,
        charge_kg: chargeKg,
        ...(isKnown ? {} : { charge_source: charge_kg.source }),
        emptied_s,
        within_s: within_s.value,
        within_source: within_s.source,
      },
    };
    if (emptied_s < within_s.value) return { ...result, outcome: 'suspect', message: 'blind' };
    return { ...result, outcome: 'pass', message: 'sees' };
  },
});
