import { z } from 'zod';
import { check, limit } from '../check.ts';
import { riseLevelAt } from '../../facts/rise/rise-ladder.ts';
import { riseLimits } from '../rise-limits.ts';
import { isolationOrProblem, riseExamples, riseMessages } from '../rise-problem.ts';
import { slackRatio } from '../slack-ratio.ts';

const tested = { vacuum_readings: 900, isolation_start_s: 1200, isolation_end_s: 1500 };
// 450 → 740 µm in five minutes: passes a rise limit of 300 µm, fails a level limit of 500 µm.
const rise290 = { ...tested, isolation_pa: 59.9951, isolation_end_pa: 98.6586, rise_pa: 38.6635 };

// 250 µm that climb by 40 µm a minute, watched for 30 min.
const climbing = {
  ...tested,
  isolation_end_s: 3000,
  isolation_pa: 33.33,
  isolation_end_pa: 193.32,
  rise_pa: 159.99,
  rise_ladder: '[[60,38.66],[120,44],[180,49.33],[300,59.99],[600,86.66],[900,113.32],[1200,139.99],[1800,193.32]]',
};

// The same by a gauge that reads no higher than that.
const overRange = {
  ...climbing,
  isolation_end_pa: 139.99,
  rise_pa: 106.66,
  isolation_over: true,
  rise_ladder: '[[60,38.66],[120,44],[180,49.33],[300,59.99],[600,86.66],[900,113.32],[1200,139.99]]',
};

/** Whether the isolated system's pressure rose past its limit: on the level reached, or on the rise. */
export const riseOverLimit = check({
  id: 'rise-over-limit',
  group: 'rise',
  gear: ['pump', 'hose-set', 'gauge'],
  revisit: 'moisture',
  question: 'Did the pressure of the isolated system stay within its limit?',
  needs: ['isolation_pa', 'isolation_end_pa', 'rise_pa'],
  limits: {
    ...riseLimits,
    shortest_s: limit({
      description: 'An isolation shorter than this shows no pressure that stays within the limit',
      unit: 's',
      schema: z.number().min(0).max(604800),
      default: 60,
      source: 'common-practice',
    }),
    slack_ratio: slackRatio,
  },
  messages: {
    ...riseMessages,
    'too-brief':
      'The system was isolated for only {isolation_s}, too briefly to show that the pressure stays within {limit_pa} for {asked_s}.',
    gap: 'The log has no readings about {asked_s} after valve-off, when the limit of {limit_pa} counts, so nothing is said of it.',
    'over-range':
      'After valve-off, at {isolation_pa}, the pressure went above the gauge’s range; its last reading was {isolation_end_pa}, and the {limit_kind} allowed is {limit_pa}.',
    'level-held':
      'Within {judged_s} of valve-off the pressure went from {isolation_pa} to {judged_pa}; at most {limit_pa} was allowed.',
    'rise-held':
      'Within {judged_s} of valve-off the pressure rose by {judged_rise_pa}; a rise of {limit_pa} was allowed.',
    'level-near':
      'Within {judged_s} of valve-off the pressure reached {judged_pa}: over the limit of {limit_pa} by less than the accuracy of the gauge.',
    'rise-near':
      'Within {judged_s} of valve-off the pressure rose by {judged_rise_pa}: over the limit of {limit_pa} by less than the accuracy of the gauge.',
    'level-over':
      'Within {judged_s} of valve-off the pressure went from {isolation_pa} to {judged_pa}; at most {limit_pa} was allowed.',
    'rise-over':
      'Within {judged_s} of valve-off the pressure rose by {judged_rise_pa}; only a rise of {limit_pa} was allowed.',
  },
  teach:
    'A steady climb points to a leak: look at flares, cores and the hose itself first. A rise that levels off points to moisture or outgassing: break with dry nitrogen, pull again, hold longer. Then test again before charging.',
  references: ['common-practice', 'rise-protocol-ra3', 'ufgs-refrigerant-piping'],
  examples: [
    {
      name: '450 → 740 µm against a level of 500 µm',
      facts: rise290,
      limits: { kind: 'level', limit_pa: 66.661184 },
      outcome: 'fail',
      message: 'level-over',
    },
    {
      name: '450 → 740 µm against a rise of 300 µm',
      facts: rise290,
      limits: { kind: 'rise', limit_pa: 39.99671 },
      outcome: 'pass',
      message: 'rise-held',
    },
    {
      name: '250 → 320 µm in five minutes',
      facts: { ...tested, isolation_pa: 33.33, isolation_end_pa: 42.66, rise_pa: 9.33 },
      outcome: 'pass',
      message: 'level-held',
    },
    {
      name: '510 µm by a gauge good to 5 %',
      facts: { ...tested, isolation_pa: 50, isolation_end_pa: 68, rise_pa: 18, gauge_accuracy_ratio: 0.05 },
      outcome: 'suspect',
      message: 'level-near',
    },
    {
      name: '310 µm in five minutes by a gauge good to 5 %, against a rise of 300 µm',
      facts: { ...tested, isolation_pa: 30, isolation_end_pa: 71.33, rise_pa: 41.33, gauge_accuracy_ratio: 0.05 },
      limits: { kind: 'rise', limit_pa: 39.99671 },
      outcome: 'suspect',
      message: 'rise-near',
    },
    {
      name: 'a rise of 400 µm where 300 µm are allowed',
      facts: { ...tested, isolation_pa: 30, isolation_end_pa: 83.33, rise_pa: 53.33 },
      limits: { kind: 'rise', limit_pa: 39.99671 },
      outcome: 'fail',
      message: 'rise-over',
    },
    {
      name: 'flat, but for ten minutes where an hour is asked',
      facts: { ...tested, isolation_end_s: 1800, isolation_pa: 30, isolation_end_pa: 33, rise_pa: 3 },
      limits: { shortest_s: 3600 },
      outcome: 'not-evaluated',
      message: 'too-brief',
    },
    {
      name: 'over the limit after ten minutes where an hour is asked: more time would not bring it back',
      facts: { ...tested, isolation_end_s: 1800, isolation_pa: 30, isolation_end_pa: 133, rise_pa: 103 },
      limits: { shortest_s: 3600 },
      outcome: 'fail',
      message: 'level-over',
    },
    {
      name: 'judged when the record says, though it was watched for longer',
      facts: climbing,
      limits: { after_s: 300 },
      outcome: 'pass',
      message: 'level-held',
    },
    {
      name: 'the same at its end',
      facts: climbing,
      outcome: 'fail',
      message: 'level-over',
    },
    {
      name: 'three minutes within the limit where five are asked',
      facts: { ...tested, isolation_end_s: 1380, isolation_pa: 30, isolation_end_pa: 33, rise_pa: 3 },
      limits: { after_s: 300 },
      outcome: 'not-evaluated',
      message: 'too-brief',
    },
    {
      name: 'four minutes and fifty seconds where five minutes are asked',
      facts: { ...tested, isolation_end_s: 1490, isolation_pa: 30, isolation_end_pa: 33, rise_pa: 3 },
      limits: { after_s: 300 },
      outcome: 'pass',
      message: 'level-held',
    },
    {
      name: 'may have been five minutes, as its start is uncertain',
      facts: {
        ...tested,
        isolation_start_low_s: 1170,
        isolation_end_s: 1470,
        isolation_pa: 30,
        isolation_end_pa: 33,
        rise_pa: 3,
      },
      limits: { after_s: 300 },
      outcome: 'pass',
      message: 'level-held',
    },
    { name: 'it went above the range of the gauge', facts: overRange, outcome: 'fail', message: 'over-range' },
    {
      name: 'it went above the range of the gauge, long after the limit counted',
      facts: overRange,
      limits: { after_s: 300 },
      outcome: 'pass',
      message: 'level-held',
    },
    {
      name: 'it went above the range of the gauge before the limit counted, its last reading within it',
      facts: { ...overRange, isolation_end_pa: 44, rise_pa: 10.67, rise_ladder: '[[60,38.66],[120,44]]' },
      limits: { after_s: 300, kind: 'rise' },
      outcome: 'fail',
      message: 'over-range',
    },
    {
      name: 'no reading for an hour, within which the limit counts',
      facts: {
        ...tested,
        isolation_end_s: 5400,
        isolation_pa: 30,
        isolation_end_pa: 120,
        rise_pa: 90,
        rise_ladder: '[[60,30],[300,null],[600,null],[4200,120]]',
      },
      limits: { after_s: 600 },
      outcome: 'not-evaluated',
      message: 'gap',
    },
    ...riseExamples,
  ],
  judge(facts, { limit_pa, kind, after_s, shortest_s, slack_ratio }) {
    const isolation = isolationOrProblem(facts);
    if ('problem' in isolation) return isolation.problem;
    const { isolationS, longestS } = isolation;
    const { isolation_pa, isolation_end_pa, rise_pa, rise_ladder } = facts;
    if (isolation_pa === undefined || isolation_end_pa === undefined || rise_pa === undefined)
      return { outcome: 'not-evaluated', message: 'no-isolation', evidence: {} };
    const levelPa =
      rise_ladder === undefined || after_s.value === 0 || after_s.value >= isolationS
        ? undefined
        : riseLevelAt(rise_ladder, after_s.value, isolation_pa);
    const judged_pa = levelPa ?? isolation_end_pa;
    const judged_rise_pa = levelPa === undefined ? rise_pa : levelPa - isolation_pa;
    const value = kind.value === 'level' ? judged_pa : judged_rise_pa;
    const evidence = {
      isolation_s: isolationS,
      isolation_pa,
      isolation_end_pa,
      rise_pa,
      judged_s: levelPa === undefined ? isolationS : after_s.value,
      judged_pa,
      judged_rise_pa,
      limit_pa: limit_pa.value,
      limit_kind: kind.value,
      limit_source: limit_pa.source,
      asked_s: Math.max(after_s.value, shortest_s.value),
      asked_source: after_s.value > 0 ? after_s.source : shortest_s.source,
      gauge_accuracy_ratio: facts.gauge_accuracy_ratio,
    };
    const result = { value, limit: limit_pa.value, unit: 'Pa' as const, evidence };
    // The last reading within the range says nothing of how high it went after that.
    if (facts.isolation_over && levelPa === undefined) return { ...result, outcome: 'fail', message: 'over-range' };
    // An isolated pressure only rises: what is within the limit later was within it before.
    const isUnseen =
      rise_ladder !== undefined && levelPa === undefined && after_s.value > 0 && after_s.value < isolationS;
    if (isUnseen && value > limit_pa.value) return { ...result, outcome: 'not-evaluated', message: 'gap' };
    const leastS = Math.max(shortest_s.value, after_s.value * (1 - slack_ratio.value));
    // An isolated pressure only rises: what is over the limit early would be over it later.
    if (longestS < leastS && value <= limit_pa.value)
      return { ...result, outcome: 'not-evaluated', message: 'too-brief' };
    if (value <= limit_pa.value) return { ...result, outcome: 'pass', message: `${kind.value}-held` };
    const near = value * (1 - (facts.gauge_accuracy_ratio ?? 0)) <= limit_pa.value;
    if (near) return { ...result, outcome: 'suspect', message: `${kind.value}-near` };
    return { ...result, outcome: 'fail', message: `${kind.value}-over` };
  },
});
