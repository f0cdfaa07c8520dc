import { z } from 'zod';
import { check, limit } from '../check.ts';
import {
  conditionExamples,
  conditionMessages,
  conditionProblem,
  leastOutdoorK,
  offTarget,
  steadyFacts,
} from '../run-conditions.ts';
import { runExamples, runMessages, runProblem } from '../run-problem.ts';

const valve = {
  ...steadyFacts,
  metering_kind: 'valve',
  subcooling_k: 5.8,
  subcooling_low_k: 5,
  subcooling_high_k: 6.6,
  target_subcooling_k: 5.5,
} as const;
const read =
  'Subcooling {subcooling_k} ({subcooling_low_k} to {subcooling_high_k}, 95 %), where the maker asks for {target_subcooling_k}';

/** Whether the subcooling is what the maker asks for, where a valve meters. */
export const subcoolingOff = check({
  id: 'subcooling-off',
  group: 'run-test',
  revisit: 'charge',
  question: 'Was the subcooling what the maker asks for?',
  needs: ['subcooling_k', 'subcooling_low_k', 'subcooling_high_k', 'target_subcooling_k', 'metering_kind'],
  limits: {
    least_outdoor_k: leastOutdoorK,
    short_k: limit({
      description: 'Subcooling below the target from which it is suspect: 3 °F',
      unit: 'K',
      schema: z.number().positive().max(30),
      default: 1.67,
      source: 'title-24-ra3-2',
    }),
    over_k: limit({
      description: 'Subcooling above the target from which it is suspect: 3 °F',
      unit: 'K',
      schema: z.number().positive().max(30),
      default: 1.67,
      source: 'common-practice',
    }),
    fail_k: limit({
      description: 'Deviation from the target from which it fails: 6 °F',
      unit: 'K',
      schema: z.number().positive().max(30),
      default: 3.33,
      source: 'common-practice',
    }),
  },
  messages: {
    ...runMessages,
    ...conditionMessages,
    met: `${read}; {allowed_off_k} is allowed.`,
    high: `${read}: {subcooling_off_k} too high, as where there is too much charge, air in the system, or a restriction behind.`,
    low: `${read}: {subcooling_off_k} too low, as where charge is short.`,
    'fixed-orifice': 'A fixed orifice meters: it is judged by superheat.',
    'two-phase':
      'The metering device sits outdoors, so that the liquid line carries two phases: there is no subcooling to read.',
    'no-target': 'The record lacks the subcooling that the maker asks for.',
    'too-uncertain':
      'Subcooling {subcooling_k} is uncertain by {uncertain_off_k}, so nothing is said; record what gauge and clamp are good to.',
    'no-subcooling': 'Liquid pressure or liquid line was not read over the steady window.',
    'no-metering': 'The record does not say what meters, and the target goes by it.',
  },
  teach:
    'Where a valve meters, the charge shows in the subcooling: read the target off the nameplate, count from the bubble point at the liquid pressure, absolute, and wait until the valve no longer hunts.',
  references: ['title-24-ra3-2', 'common-practice'],
  examples: [
    { name: 'at its target', facts: valve, outcome: 'pass', message: 'met' },
    {
      name: 'hardly any',
      facts: { ...valve, subcooling_k: 0.5, subcooling_low_k: -0.3, subcooling_high_k: 1.3 },
      outcome: 'fail',
      message: 'low',
    },
    {
      name: 'somewhat much',
      facts: { ...valve, subcooling_k: 8, subcooling_low_k: 7.2, subcooling_high_k: 8.8 },
      outcome: 'suspect',
      message: 'high',
    },
    {
      name: 'by rough instruments',
      facts: { ...valve, subcooling_low_k: -1, subcooling_high_k: 12 },
      outcome: 'not-evaluated',
      message: 'too-uncertain',
    },
    {
      name: 'a fixed orifice',
      facts: { ...valve, metering_kind: 'fixed' },
      outcome: 'not-evaluated',
      message: 'fixed-orifice',
    },
    {
      name: 'metered outdoors',
      facts: { ...valve, liquid_line_phase: 'two-phase', subcooling_k: undefined },
      outcome: 'not-evaluated',
      message: 'two-phase',
    },
    {
      name: 'no target on record',
      facts: { ...valve, target_subcooling_k: undefined },
      outcome: 'not-evaluated',
      message: 'no-target',
    },
    {
      name: 'no liquid pressure',
      facts: { ...valve, subcooling_k: undefined },
      outcome: 'not-evaluated',
      message: 'no-subcooling',
    },
    {
      name: 'no metering device on record',
      facts: { ...valve, metering_kind: undefined },
      outcome: 'not-evaluated',
      message: 'no-metering',
    },
    ...conditionExamples(valve),
    ...runExamples,
  ],
  judge(facts, limits) {
    const problem = runProblem(facts) ?? conditionProblem(facts, limits.least_outdoor_k);
    if (problem !== undefined) return problem;
    const { subcooling_k: subcoolingK, target_subcooling_k: targetK, metering_kind: kind } = facts;
    const { subcooling_low_k: lowK = subcoolingK, subcooling_high_k: highK = subcoolingK } = facts;
    const nothing = (message: 'no-metering' | 'fixed-orifice' | 'two-phase' | 'no-target' | 'no-subcooling') =>
      ({ outcome: 'not-evaluated', message, evidence: {} }) as const;
    if (kind === undefined) return nothing('no-metering');
    if (kind === 'fixed') return nothing('fixed-orifice');
    if (facts.liquid_line_phase === 'two-phase') return nothing('two-phase');
    if (subcoolingK === undefined || lowK === undefined || highK === undefined) return nothing('no-subcooling');
    if (targetK === undefined) return nothing('no-target');
    const suspect = subcoolingK < targetK ? limits.short_k : limits.over_k;
    const measured = { k: subcoolingK, lowK: facts.subcooling_low_k, highK: facts.subcooling_high_k };
    const off = offTarget(measured, targetK, suspect, limits.fail_k);
    if ('uncertainK' in off) {
      const evidence = { subcooling_k: subcoolingK, uncertain_off_k: off.uncertainK };
      return { outcome: 'not-evaluated', message: 'too-uncertain', evidence };
    }
    const { offK, outcome, bound } = off;
    return {
      outcome,
      message: outcome === 'pass' ? 'met' : offK > 0 ? 'high' : 'low',
      value: offK,
      limit: bound.value,
      unit: 'K',
      evidence: {
        subcooling_k: subcoolingK,
        subcooling_low_k: lowK,
        subcooling_high_k: highK,
        target_subcooling_k: targetK,
        subcooling_off_k: Math.abs(offK),
        allowed_off_k: suspect.value,
        limit_source: bound.source,
      },
    };
  },
});
