import { z } from 'zod';
import { check, limit } from '../check.ts';

const recorded = { charge_target_kg: 1.26, charged_kg: 0.16, charge_wanted_kg: 0.16, charge_deviation_kg: 0 };

/** Whether the weighed-in charge meets the target computed for this very job. */
export const chargeOffTarget = check({
  id: 'charge-off-target',
  group: 'charge',
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
    'on-target': 'Charged {charged_kg}; {charge_wanted_kg} were wanted ({system_target_kg} in the whole system).',
    under:
      'Charged {charged_kg}, {short_kg} less than the {charge_wanted_kg} wanted ({system_target_kg} in the whole system).',
    over: 'Charged {charged_kg}, {excess_kg} more than the {charge_wanted_kg} wanted ({system_target_kg} in the whole system).',
    'impossible-target': 'The record adds up to a target of {system_target_kg}, which no system can want.',
    'no-weigh-in': 'No weighed-in charge is recorded.',
    'no-charging-work': 'The work was of a kind on which nothing is charged.',
    'no-record': 'There is no record of the job, only readings.',
    'no-factory-charge': 'The record lacks the factory charge, so there is no target.',
    'no-line-length': 'The record lacks the line length, so there is no target.',
    'no-covered-length': 'The record does not say what length the factory charge covers, so there is no target.',
    'no-adder': 'The line is longer than the factory charge covers, and the record lacks the adder per metre.',
    'no-charge-basis': 'The record does not say what was in the system before, so the target of this job is not known.',
    'top-up': 'A top-up has no target by weight: what was in the system before is not known.',
  },
  teach:
    'Factory charge plus what the line needs beyond the length it covers: measure the line, take the covered length and the adder from the nameplate, work out the sum before opening the cylinder, and write down scale before, scale after and hose residual.',
  references: ['common-practice'],
  examples: [
    { name: 'as computed', facts: recorded, outcome: 'pass', message: 'on-target' },
    {
      name: 'nothing added to a long line',
      facts: { ...recorded, charged_kg: 0, charge_deviation_kg: -0.16 },
      outcome: 'fail',
      message: 'under',
    },
    {
      name: 'counted from zero',
      facts: { ...recorded, charged_kg: 0.26, charge_deviation_kg: 0.1 },
      outcome: 'suspect',
      message: 'over',
    },
    {
      name: 'one scale step',
      facts: { ...recorded, charged_kg: 0.18, charge_deviation_kg: 0.02 },
      outcome: 'pass',
      message: 'on-target',
    },
    { name: 'no weigh-in', facts: { charge_problem: 'no-weigh-in' }, outcome: 'missing', message: 'no-weigh-in' },
    {
      name: 'no adder',
      facts: { charged_kg: 0.2, charge_problem: 'no-adder' },
      outcome: 'not-evaluated',
      message: 'no-adder',
    },
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
    const evidence = {
      charged_kg,
      charge_wanted_kg,
      system_target_kg: target,
      hose_residual_kg: facts.hose_residual_kg,
    };
    if (deviation === undefined || target === undefined) {
      const message = facts.charge_problem ?? 'no-record';
      return { outcome: message === 'no-weigh-in' ? 'missing' : 'not-evaluated', message, evidence };
    }
    if (target <= 0) return { outcome: 'not-evaluated', message: 'impossible-target', evidence };
    const result = { value: deviation, unit: 'kg' as const };
    const size = Math.abs(deviation);
    const suspectFrom = Math.max(least_kg.value, suspect_ratio.value * target);
    const failFrom = Math.max(least_kg.value, fail_ratio.value * target);
    const outcome = size > failFrom ? 'fail' : size > suspectFrom ? 'suspect' : 'pass';
    const limits = {
      limit_source: outcome === 'fail' ? fail_ratio.source : suspect_ratio.source,
      deviation_ratio: deviation / target,
    };
    if (outcome === 'pass')
      return { ...result, limit: suspectFrom, outcome, message: 'on-target', evidence: { ...evidence, ...limits } };
    const off = deviation < 0 ? { short_kg: size } : { excess_kg: size };
    return {
      ...result,
      limit: outcome === 'fail' ? failFrom : suspectFrom,
      outcome,
      message: deviation < 0 ? 'under' : 'over',
      evidence: { ...evidence, ...off, ...limits },
    };
  },
});
