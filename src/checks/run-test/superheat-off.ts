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

// 66 °F wet bulb, 90 °F outdoors: 13 °F.
const orifice = {
  ...steadyFacts,
  metering_kind: 'fixed',
  run_outdoor_k: 305.37,
  run_indoor_wet_bulb_k: 292.04,
  superheat_k: 7.5,
  superheat_low_k: 6.5,
  superheat_high_k: 8.5,
  target_superheat_k: 7.22,
  target_superheat_basis: 'table',
} as const;
// What the record asks for needs no wet bulb.
const ordered = { ...orifice, target_superheat_basis: 'record', run_indoor_wet_bulb_k: undefined } as const;
const valve = {
  ...steadyFacts,
  metering_kind: 'valve',
  superheat_k: 6,
  superheat_low_k: 5,
  superheat_high_k: 7,
} as const;
const read = 'Superheat {superheat_k} ({superheat_low_k} to {superheat_high_k}, 95 %)';
const aim = 'where {target_superheat_k} was to be shown at {outdoor_k} outdoors and {wet_bulb_k} wet bulb indoors';
const asked = 'where the record asks for {target_superheat_k}';
const starved = '{superheat_off_k} too high, as where charge is short or the line is restricted.';
const flooded = '{superheat_off_k} too low, as where there is too much charge or too little air.';

/** Whether the superheat is what the metering device should make of the day. */
export const superheatOff = check({
  id: 'superheat-off',
  group: 'run-test',
  revisit: 'charge',
  question: 'Was the superheat what it should be?',
  needs: ['superheat_k', 'superheat_low_k', 'superheat_high_k', 'metering_kind'],
  limits: {
    least_outdoor_k: leastOutdoorK,
    suspect_k: limit({
      description: 'Deviation from the target, fixed orifice, from which it is suspect: 5 °F',
      unit: 'K',
      schema: z.number().positive().max(30),
      default: 2.78,
      source: 'title-24-ra3-2',
    }),
    fail_k: limit({
      description: 'Deviation from the target, fixed orifice, from which it fails: 10 °F',
      unit: 'K',
      schema: z.number().positive().max(30),
      default: 5.56,
      source: 'common-practice',
    }),
    least_target_k: limit({
      description: 'Target below which nothing is judged: 5 °F',
      unit: 'K',
      schema: z.number().min(0).max(30),
      default: 2.77,
      source: 'title-24-ra3-2',
    }),
    valve_least_k: limit({
      description: 'Least that a valve should keep: 4 °F',
      unit: 'K',
      schema: z.number().min(0).max(30),
      default: 2.22,
      source: 'title-24-ra3-2',
    }),
    valve_most_k: limit({
      description: 'Most that a valve should keep: 25 °F',
      unit: 'K',
      schema: z.number().min(0).max(60),
      default: 13.89,
      source: 'title-24-ra3-2',
    }),
  },
  messages: {
    ...runMessages,
    ...conditionMessages,
    met: `${read}, ${aim}; {allowed_off_k} is allowed.`,
    high: `${read}, ${aim}: ${starved}`,
    low: `${read}, ${aim}: ${flooded}`,
    'asked-met': `${read}, ${asked}; {allowed_off_k} is allowed.`,
    'asked-high': `${read}, ${asked}: ${starved}`,
    'asked-low': `${read}, ${asked}: ${flooded}`,
    'valve-keeps': `${read}; a valve keeps between {valve_least_superheat_k} and {valve_most_superheat_k}.`,
    'valve-high': `${read}; a valve keeps at most {valve_most_superheat_k}: it starves, for want of charge or behind a restriction.`,
    'valve-low': `${read}; a valve keeps at least {valve_least_superheat_k}: it floods, or its bulb does not feel the line.`,
    'no-target':
      'The table has no target at {outdoor_k} outdoors and {wet_bulb_k} wet bulb indoors: nothing is to be tested there.',
    'low-target':
      'The target, {target_superheat_k}, is below {least_target_superheat_k}: nothing is to be tested there.',
    'no-wet-bulb': 'The wet bulb indoors was not read, so there is no target.',
    'too-uncertain':
      'Superheat {superheat_k} is uncertain by {uncertain_off_k}, so nothing is said; record what gauge and clamp are good to.',
    'no-superheat': 'Suction pressure or suction line was not read over the steady window.',
    'no-metering': 'The record does not say what meters, and the target goes by it.',
  },
  teach:
    'A fixed orifice is charged by superheat, and the target goes with the wet bulb indoors and the temperature outdoors; a valve holds its superheat itself, and is charged by subcooling. Count from the dew point at the suction pressure, absolute, and put the clamp where the gauge reads.',
  references: ['title-24-ra3-2', 'maker-superheat-table', 'common-practice'],
  examples: [
    { name: 'an orifice at its target', facts: orifice, outcome: 'pass', message: 'met' },
    {
      name: 'an orifice starved',
      facts: { ...orifice, superheat_k: 14, superheat_low_k: 13, superheat_high_k: 15 },
      outcome: 'fail',
      message: 'high',
    },
    {
      name: 'an orifice a little flooded',
      facts: { ...orifice, superheat_k: 3.8, superheat_low_k: 2.8, superheat_high_k: 4.8 },
      outcome: 'suspect',
      message: 'low',
    },
    { name: 'an orifice as the record asks', facts: ordered, outcome: 'pass', message: 'asked-met' },
    {
      name: 'an orifice above what the record asks',
      facts: { ...ordered, target_superheat_k: 4.5 },
      outcome: 'suspect',
      message: 'asked-high',
    },
    {
      name: 'an orifice far below what the record asks',
      facts: { ...ordered, target_superheat_k: 14 },
      outcome: 'fail',
      message: 'asked-low',
    },
    {
      name: 'an orifice by rough instruments',
      facts: { ...orifice, superheat_low_k: 1, superheat_high_k: 14 },
      outcome: 'not-evaluated',
      message: 'too-uncertain',
    },
    { name: 'a valve at work', facts: valve, outcome: 'pass', message: 'valve-keeps' },
    {
      name: 'a valve wide open',
      facts: { ...valve, superheat_k: 17, superheat_low_k: 16, superheat_high_k: 18 },
      outcome: 'suspect',
      message: 'valve-high',
    },
    {
      name: 'a valve that floods',
      facts: { ...valve, superheat_k: 0.5, superheat_low_k: -0.5, superheat_high_k: 1.5 },
      outcome: 'suspect',
      message: 'valve-low',
    },
    {
      name: 'dry air in the heat',
      facts: { ...orifice, target_superheat_k: undefined, target_superheat_basis: undefined },
      outcome: 'not-evaluated',
      message: 'no-target',
    },
    {
      name: 'a target of 3 °F',
      facts: { ...orifice, target_superheat_k: 1.67 },
      outcome: 'not-evaluated',
      message: 'low-target',
    },
    {
      name: 'no wet bulb',
      facts: { ...orifice, target_superheat_k: undefined, run_indoor_wet_bulb_k: undefined },
      outcome: 'not-evaluated',
      message: 'no-wet-bulb',
    },
    {
      name: 'no clamp',
      facts: { ...orifice, superheat_k: undefined },
      outcome: 'not-evaluated',
      message: 'no-superheat',
    },
    {
      name: 'no metering device on record',
      facts: { ...orifice, metering_kind: undefined },
      outcome: 'not-evaluated',
      message: 'no-metering',
    },
    ...conditionExamples(orifice),
    ...runExamples,
  ],
  judge(facts, limits) {
    const problem = runProblem(facts) ?? conditionProblem(facts, limits.least_outdoor_k);
    if (problem !== undefined) return problem;
    const { superheat_k: superheatK, metering_kind: kind, target_superheat_k: targetK } = facts;
    const { run_outdoor_k, run_indoor_wet_bulb_k: wetBulbK } = facts;
    const { superheat_low_k: lowK = superheatK, superheat_high_k: highK = superheatK } = facts;
    const conditions = { outdoor_k: run_outdoor_k, wet_bulb_k: wetBulbK };
    if (kind === undefined) return { outcome: 'not-evaluated', message: 'no-metering', evidence: {} };
    if (superheatK === undefined || lowK === undefined || highK === undefined)
      return { outcome: 'not-evaluated', message: 'no-superheat', evidence: {} };
    const evidence = { ...conditions, superheat_k: superheatK, superheat_low_k: lowK, superheat_high_k: highK };
    const { valve_least_k: leastValve, valve_most_k: mostValve } = limits;
    if (kind === 'valve') {
      const isHigh = lowK > mostValve.value;
      const isLow = highK < leastValve.value;
      const bound = isLow ? leastValve : mostValve;
      return {
        outcome: isHigh || isLow ? 'suspect' : 'pass',
        message: isHigh ? 'valve-high' : isLow ? 'valve-low' : 'valve-keeps',
        value: superheatK,
        limit: bound.value,
        unit: 'K',
        evidence: {
          ...evidence,
          valve_least_superheat_k: leastValve.value,
          valve_most_superheat_k: mostValve.value,
          limit_source: bound.source,
        },
      };
    }
    if (targetK === undefined)
      return wetBulbK === undefined
        ? { outcome: 'not-evaluated', message: 'no-wet-bulb', evidence }
        : { outcome: 'not-evaluated', message: 'no-target', evidence };
    const least = limits.least_target_k;
    if (targetK < least.value)
      return {
        outcome: 'not-evaluated',
        message: 'low-target',
        evidence: { ...evidence, target_superheat_k: targetK, least_target_superheat_k: least.value },
      };
    const measured = { k: superheatK, lowK: facts.superheat_low_k, highK: facts.superheat_high_k };
    const off = offTarget(measured, targetK, limits.suspect_k, limits.fail_k);
    if ('uncertainK' in off) {
      const uncertain = { ...evidence, uncertain_off_k: off.uncertainK };
      return { outcome: 'not-evaluated', message: 'too-uncertain', evidence: uncertain };
    }
    const { offK, outcome, bound } = off;
    const side = outcome === 'pass' ? 'met' : offK > 0 ? 'high' : 'low';
    return {
      outcome,
      message: facts.target_superheat_basis === 'record' ? `asked-${side}` : side,
      value: offK,
      limit: bound.value,
      unit: 'K',
      evidence: {
        ...evidence,
        target_superheat_k: targetK,
        superheat_off_k: Math.abs(offK),
        allowed_off_k: limits.suspect_k.value,
        target_basis: facts.target_superheat_basis,
        limit_source: bound.source,
      },
    };
  },
});
