import { z } from 'zod';
import { check, limit } from '../check.ts';
import { slipEvidence } from '../slip-evidence.ts';

const charged =
  'Charged {charged_kg}, {off_kg} ({least_off_kg} to {most_off_kg}, 95 %) {off_way} the {charge_wanted_kg} wanted ({system_target_kg} in the whole system)';
const odds = ' That is the likeliest slip ({slip_probability_ratio}).';
// 7.5 m covered, 8 m beyond at 20 g/m.
const recorded = {
  charge_target_kg: 1.26,
  charged_kg: 0.16,
  charge_wanted_kg: 0.16,
  charge_deviation_kg: 0,
  charge_deviation_low_kg: -0.012,
  charge_deviation_high_kg: 0.012,
};
const off = (deviationKg: number, uncertainKg = 0.012) => ({
  ...recorded,
  charged_kg: 0.16 + deviationKg,
  charge_deviation_kg: deviationKg,
  charge_deviation_low_kg: deviationKg - uncertainKg,
  charge_deviation_high_kg: deviationKg + uncertainKg,
});
const line = {
  line_beyond_m: 8,
  line_within_m: 7.5,
  line_adder_kg_per_m: 0.02,
  line_charge_kg: 0.16,
  hose_residual_kg: 0.06,
  slip_probability_ratio: 0.93,
};

/** Whether the weighed-in charge meets the target computed for this very job. */
export const chargeOffTarget = check({
  id: 'charge-off-target',
  group: 'charge',
  gear: ['scale'],
  revisit: 'charge',
  question: 'Did the weighed-in charge meet the target of this job?',
  needs: ['charge_target_kg', 'charged_kg', 'charge_deviation_kg'],
  limits: {
    suspect_ratio: limit({
      description: "Deviation, as a ratio of the whole system's target, from which the charge is suspect",
      schema: z.number().positive().max(1),
      default: 0.05,
      source: 'common-practice',
    }),
    fail_ratio: limit({
      description: "Deviation, as a ratio of the whole system's target, from which the charge fails",
      schema: z.number().positive().max(1),
      default: 0.1,
      source: 'common-practice',
    }),
    least_kg: limit({
      description: 'Deviations up to this mass never count: scale steps and hoses make as much',
      unit: 'kg',
      schema: z.number().min(0).max(10),
      default: 0.03,
      source: 'common-practice',
    }),
  },
  messages: {
    'on-target':
      'Charged {charged_kg}; {charge_wanted_kg} were wanted ({system_target_kg} in the whole system). The two are compared to ± {uncertain_kg}.',
    under: `${charged}; no one of the usual slips stands out.`,
    over: `${charged}; no one of the usual slips stands out.`,
    'line-ignored': `${charged}: the line was left out. {line_beyond_m} beyond the covered length at {line_adder_kg_per_m} want {line_charge_kg}.${odds}`,
    'from-zero': `${charged}: the line was counted from zero. The {line_within_m} that the factory charge covers, at {line_adder_kg_per_m}, are {slip_off_kg}.${odds}`,
    'other-line-size': `${charged}: the adder of a {slip_of} line was taken. It gives {slip_charge_kg}.${odds}`,
    'other-refrigerant': `${charged}: the adder of {slip_of} was taken. It gives {slip_charge_kg}.${odds}`,
    'ounce-tenth-pound': `${charged}: {slip_of}. That gives {slip_charge_kg}.${odds}`,
    'kg-pound': `${charged}: {slip_of}, or a column is in another unit than it says. That gives {slip_charge_kg}.${odds}`,
    'hose-residual': `${charged}: what stayed in the hoses, {hose_residual_kg}, was {slip_of}.${odds}`,
    'factory-again': `${charged}: the factory charge, {factory_charge_kg}, was put in again.${odds}`,
    'too-uncertain':
      'What was charged beside what was wanted, {deviation_kg}, is uncertain by {uncertain_kg}, so nothing is said; write down what stays in the hoses, and the scale before and after.',
    'scale-unit': 'The scale was in another unit than its column says, so nothing is said of the charge.',
    'absurd-mass':
      'What the record or the scale says was charged, {drawn_kg}, no such system takes, so nothing is said of it.',
    'absurd-residual':
      'More is said to have stayed in the hoses than left the cylinder, so nothing is said of the charge.',
    'absurd-adder':
      'The recorded adder is many times what such a line can hold, or as many times less, so there is no target.',
    'impossible-target': 'The record adds up to a target of {system_target_kg}, which no system can want.',
    'no-weigh-in': 'No weighed-in charge is recorded.',
    'no-charging-work': 'The work was of a kind on which nothing is charged.',
    'no-record': 'There is no record of the job, only readings.',
    'no-factory-charge': 'The record lacks the factory charge, so there is no target.',
    'no-line-length': 'The record lacks the line length, so there is no target.',
    'no-covered-length': 'The record does not say what length the factory charge covers, so there is no target.',
    'no-adder':
      'The line is longer than the factory charge covers, and the record lacks its adder, and the size of the line or a known refrigerant to reckon one from.',
    'no-charge-basis': 'The record does not say what was in the system before, so the target of this job is not known.',
    'top-up': 'A top-up has no target by weight: what was in the system before is not known.',
  },
  teach:
    'Factory charge plus what the line needs beyond the length it covers: measure the line, take the covered length and the adder from the nameplate, work out the sum before opening the cylinder, and write down scale before, scale after and hose residual.',
  references: ['common-practice'],
  examples: [
    { name: 'as computed', facts: recorded, outcome: 'pass', message: 'on-target' },
    { name: 'a fifth too little, for no slip', facts: off(-0.15), outcome: 'fail', message: 'under' },
    { name: 'a little too much, for no slip', facts: off(0.09), outcome: 'suspect', message: 'over' },
    { name: 'one scale step', facts: off(0.02), outcome: 'pass', message: 'on-target' },
    {
      name: 'far off, but hardly known',
      facts: off(-0.15, 0.12),
      outcome: 'suspect',
      message: 'under',
    },
    { name: 'not known well enough', facts: off(-0.05, 0.2), outcome: 'not-evaluated', message: 'too-uncertain' },
    {
      name: 'nothing added to a long line',
      facts: { ...off(-0.16), ...line, charge_slip: 'line-ignored', slip_charge_kg: 0 },
      outcome: 'fail',
      message: 'line-ignored',
    },
    {
      name: 'counted from zero',
      facts: { ...off(0.15), ...line, charge_slip: 'from-zero', slip_charge_kg: 0.31 },
      outcome: 'fail',
      message: 'from-zero',
    },
    {
      name: 'the adder of a thicker line',
      facts: { ...off(0.18), ...line, charge_slip: 'other-line-size', slip_of: '3/8 in', slip_charge_kg: 0.34 },
      outcome: 'fail',
      message: 'other-line-size',
    },
    {
      name: 'the adder of another refrigerant',
      facts: { ...off(0.08), ...line, charge_slip: 'other-refrigerant', slip_of: 'R-22', slip_charge_kg: 0.24 },
      outcome: 'suspect',
      message: 'other-refrigerant',
    },
    {
      name: '5.6 oz put in as 0.56 lb',
      facts: {
        ...off(0.095),
        ...line,
        charge_slip: 'ounce-tenth-pound',
        slip_of: 'ounces were taken for tenths of a pound',
        slip_charge_kg: 0.256,
      },
      outcome: 'suspect',
      message: 'ounce-tenth-pound',
    },
    {
      name: 'kilograms read as pounds',
      facts: {
        ...off(-0.087),
        ...line,
        charge_slip: 'kg-pound',
        slip_of: 'kilograms were taken for pounds',
        slip_charge_kg: 0.073,
      },
      outcome: 'suspect',
      message: 'kg-pound',
    },
    {
      name: 'hoses not counted',
      facts: { ...off(-0.066), ...line, charge_slip: 'hose-residual', slip_of: 'not counted', slip_charge_kg: 0.1 },
      outcome: 'suspect',
      message: 'hose-residual',
    },
    {
      name: 'the factory charge once more',
      facts: { ...off(1.1), ...line, charge_slip: 'factory-again', slip_charge_kg: 1.26 },
      outcome: 'fail',
      message: 'factory-again',
    },
    {
      name: 'grams in a column of kilograms',
      facts: { charged_kg: 412, drawn_kg: 412, charge_problem: 'scale-unit' },
      outcome: 'not-evaluated',
      message: 'scale-unit',
    },
    {
      name: 'thirty kilograms into a small system',
      facts: { charged_kg: 30, drawn_kg: 30, charge_problem: 'absurd-mass' },
      outcome: 'not-evaluated',
      message: 'absurd-mass',
    },
    { name: 'no weigh-in', facts: { charge_problem: 'no-weigh-in' }, outcome: 'missing', message: 'no-weigh-in' },
    {
      name: 'no adder',
      facts: { charged_kg: 0.2, charge_problem: 'no-adder' },
      outcome: 'not-evaluated',
      message: 'no-adder',
    },
    ...(['absurd-residual', 'absurd-adder'] as const).map((problem) => ({
      name: problem,
      facts: { charged_kg: 0.2, drawn_kg: 0.2, charge_problem: problem },
      outcome: 'not-evaluated' as const,
      message: problem,
    })),
    ...(
      [
        'no-factory-charge',
        'no-line-length',
        'no-covered-length',
        'no-charge-basis',
        'top-up',
        'no-charging-work',
      ] as const
    ).map((problem) => ({
      name: problem,
      facts: { charged_kg: 0.2, charge_problem: problem },
      outcome: 'not-evaluated' as const,
      message: problem,
    })),
    {
      name: 'a deduction larger than the charge',
      facts: { ...recorded, charge_target_kg: -0.4, charge_wanted_kg: -0.4, charge_deviation_kg: 0.56 },
      outcome: 'not-evaluated',
      message: 'impossible-target',
    },
    { name: 'readings only', facts: {}, outcome: 'not-evaluated', message: 'no-record' },
  ],
  judge(facts, { suspect_ratio, fail_ratio, least_kg }) {
    const { charge_target_kg: target, charged_kg, charge_wanted_kg, charge_deviation_kg: deviation } = facts;
    const { charge_deviation_low_kg: low = deviation, charge_deviation_high_kg: high = deviation } = facts;
    const uncertain_kg = ((high ?? 0) - (low ?? 0)) / 2;
    const evidence = {
      charged_kg,
      drawn_kg: facts.drawn_kg ?? charged_kg,
      charge_wanted_kg,
      system_target_kg: target,
      hose_residual_kg: facts.hose_residual_kg,
      deviation_kg: deviation,
      uncertain_kg,
    };
    if (deviation === undefined || target === undefined || charged_kg === undefined || charge_wanted_kg === undefined) {
      const message = facts.charge_problem ?? 'no-record';
      // A record without a deviation is told by its problem alone.
      const isToldByMass = message === 'absurd-mass' && evidence.drawn_kg === undefined;
      if (isToldByMass) return { outcome: 'not-evaluated', message: 'no-record', evidence };
      return { outcome: message === 'no-weigh-in' ? 'missing' : 'not-evaluated', message, evidence };
    }
    if (target <= 0) return { outcome: 'not-evaluated', message: 'impossible-target', evidence };
    const result = { value: deviation, unit: 'kg' as const };
    const size = Math.abs(deviation);
    const suspectFrom = Math.max(least_kg.value, suspect_ratio.value * target);
    const failFrom = Math.max(least_kg.value, fail_ratio.value * target);
    const isSure = facts.charge_deviation_low_kg !== undefined && Math.max(low ?? 0, -(high ?? 0)) > suspectFrom;
    const outcome = size > failFrom && isSure ? 'fail' : size > suspectFrom ? 'suspect' : 'pass';
    const limits = {
      limit_source: outcome === 'fail' ? fail_ratio.source : suspect_ratio.source,
      deviation_ratio: deviation / target,
    };
    if (uncertain_kg > failFrom && !isSure)
      return { ...result, limit: failFrom, outcome: 'not-evaluated', message: 'too-uncertain', evidence };
    if (outcome === 'pass')
      return { ...result, limit: suspectFrom, outcome, message: 'on-target', evidence: { ...evidence, ...limits } };
    const slip = slipEvidence(facts, charge_wanted_kg);
    return {
      ...result,
      limit: outcome === 'fail' ? failFrom : suspectFrom,
      outcome,
      message: slip?.message ?? (deviation < 0 ? 'under' : 'over'),
      evidence: {
        ...evidence,
        off_kg: size,
        least_off_kg: deviation < 0 ? -(high ?? deviation) : (low ?? deviation),
        most_off_kg: deviation < 0 ? -(low ?? deviation) : (high ?? deviation),
        off_way: deviation < 0 ? 'less than' : 'more than',
        ...slip?.evidence,
        ...limits,
        capacity_ratio: facts.charge_capacity_ratio,
        cop_ratio: facts.charge_cop_ratio,
      },
    };
  },
});
