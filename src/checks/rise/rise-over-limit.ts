import { z } from 'zod';
import { check, limit } from '../check.ts';
import { vacuumLogExamples, vacuumLogMessages, vacuumLogProblem } from '../vacuum-log-problem.ts';

const tested = { vacuum_readings: 900, isolation_start_s: 1200, isolation_end_s: 1500 };
// 450 → 740 µm in five minutes: passes a rise limit of 300 µm, fails a level limit of 500 µm.
const rise290 = { ...tested, isolation_pa: 59.9951, isolation_end_pa: 98.6586, rise_pa: 38.6635 };

/** Whether the isolated system's pressure rose past its limit: on the level reached, or on the rise. */
export const riseOverLimit = check({
  id: 'rise-over-limit',
  group: 'rise',
  question: 'Did the pressure of the isolated system stay within its limit?',
  needs: ['isolation_pa', 'isolation_end_pa', 'rise_pa'],
  limits: {
    limit_pa: limit({
      description: 'Limit of the rise test, on the level or on the rise',
      unit: 'Pa',
      schema: z.number().positive().max(101325),
      default: 66.661184,
      source: 'common-practice',
      recorded: 'rise_limit_pa',
    }),
    kind: limit<'level' | 'rise'>({
      description: 'level: the pressure at the end of the test; rise: how far it rose since isolation',
      schema: z.enum(['level', 'rise']),
      default: 'level',
      source: 'common-practice',
      recorded: 'rise_limit_kind',
    }),
    shortest_s: limit({
      description: 'An isolation shorter than this shows no pressure that stays within the limit',
      unit: 's',
      schema: z.number().min(0).max(604800),
      default: 60,
      source: 'common-practice',
    }),
  },
  messages: {
    ...vacuumLogMessages,
    'no-isolation': 'No isolation shows in the log, so there is no rise to judge.',
    'too-brief':
      'The system was isolated for only {isolation_s}, too briefly to show that the pressure stays within {limit_pa}.',
    'level-held':
      'Isolated for {isolation_s}, the pressure went from {isolation_pa} to {isolation_end_pa}; at most {limit_pa} was allowed.',
    'rise-held': 'Isolated for {isolation_s}, the pressure rose by {rise_pa}; a rise of {limit_pa} was allowed.',
    'level-near':
      'Isolated for {isolation_s}, the pressure ended at {isolation_end_pa}: over the limit of {limit_pa} by less than the accuracy of the gauge.',
    'rise-near':
      'Isolated for {isolation_s}, the pressure rose by {rise_pa}: over the limit of {limit_pa} by less than the accuracy of the gauge.',
    'level-over':
      'Isolated for {isolation_s}, the pressure went from {isolation_pa} to {isolation_end_pa}; at most {limit_pa} was allowed.',
    'rise-over': 'Isolated for {isolation_s}, the pressure rose by {rise_pa}; only a rise of {limit_pa} was allowed.',
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
    { name: 'no isolation', facts: { vacuum_readings: 900 }, outcome: 'not-evaluated', message: 'no-isolation' },
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
    ...vacuumLogExamples,
  ],
  judge(facts, { limit_pa, kind, shortest_s }) {
    const problem = vacuumLogProblem(facts);
    if (problem !== undefined) return problem;
    const { isolation_start_s: start, isolation_end_s: end, isolation_pa, isolation_end_pa, rise_pa } = facts;
    if (start === undefined || end === undefined || isolation_end_pa === undefined || rise_pa === undefined) {
      return { outcome: 'not-evaluated', message: 'no-isolation', evidence: {} };
    }
    const value = kind.value === 'level' ? isolation_end_pa : rise_pa;
    const evidence = {
      isolation_s: end - start,
      isolation_pa,
      isolation_end_pa,
      rise_pa,
      limit_pa: limit_pa.value,
      limit_kind: kind.value,
      limit_source: limit_pa.source,
      shortest_s: shortest_s.value,
      gauge_accuracy_ratio: facts.gauge_accuracy_ratio,
    };
    const result = { value, limit: limit_pa.value, unit: 'Pa' as const, evidence };
    const tooBrief = end - start < shortest_s.value && value <= limit_pa.value;
    // An isolated pressure only rises: what is over the limit early would be over it later.
    if (tooBrief) return { ...result, outcome: 'not-evaluated', message: 'too-brief' };
    if (value <= limit_pa.value) return { ...result, outcome: 'pass', message: `${kind.value}-held` };
    const near = value * (1 - (facts.gauge_accuracy_ratio ?? 0)) <= limit_pa.value;
    if (near) return { ...result, outcome: 'suspect', message: `${kind.value}-near` };
    return { ...result, outcome: 'fail', message: `${kind.value}-over` };
  },
});
