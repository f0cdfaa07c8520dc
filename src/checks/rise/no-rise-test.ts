import { z } from 'zod';
import { check, limit } from '../check.ts';
import { vacuumLogExamples, vacuumLogMessages, vacuumLogProblem } from '../vacuum-log-problem.ts';

/** Whether the system was isolated under vacuum at all. */
export const noRiseTest = check({
  id: 'no-rise-test',
  group: 'rise',
  asks: 'test-made',
  revisit: 'moisture',
  question: 'Was the system isolated under vacuum to watch the pressure?',
  needs: ['rise_shape'],
  limits: {
    shortest_s: limit({
      description: 'An isolation shorter than this is no test',
      unit: 's',
      schema: z.number().min(0).max(604800),
      default: 60,
      source: 'common-practice',
    }),
    flat_s: limit({
      description: 'A flat stretch at least this long may hide the isolation of a very tight, dry system',
      unit: 's',
      schema: z.number().min(0).max(604800),
      default: 300,
      source: 'common-practice',
    }),
  },
  messages: {
    ...vacuumLogMessages,
    tested: 'The system was isolated for {isolation_s}.',
    'too-brief': 'The system was isolated for only {isolation_s}; a test takes at least {shortest_s}.',
    none: 'The system was never isolated: the vacuum was ended straight from the pump.',
    'maybe-hidden':
      'No isolation shows. The pressure stayed flat for {hold_s}; on a very tight, dry system a rise test could hide in there, and the source marks none.',
    'marks-disagree':
      'The pressure turns up a little at the end, as after a valve-off, but the marks of the source tell of no isolation. Look at the recording.',
    'no-pull': 'The log shows no pull-down, so a rise test is not to be looked for in it.',
    'log-ends': 'The log ends with the pump still connected; a rise test may have followed.',
  },
  teach:
    'Valve off at the system, not at the pump, write down the pressure, and watch it for the time the record asks. Without that nobody knows whether the system was dry and tight.',
  references: ['common-practice'],
  examples: [
    {
      name: 'ten minutes',
      facts: { vacuum_readings: 900, isolation_start_s: 1200, isolation_end_s: 1800 },
      outcome: 'pass',
      message: 'tested',
    },
    {
      name: 'twenty seconds',
      facts: { vacuum_readings: 900, isolation_start_s: 1200, isolation_end_s: 1220 },
      outcome: 'fail',
      message: 'too-brief',
    },
    {
      name: 'straight to the break',
      facts: { vacuum_readings: 900, pumped_until: 'break', hold_s: 120 },
      outcome: 'fail',
      message: 'none',
    },
    {
      name: 'long and flat, no marks',
      facts: { vacuum_readings: 900, pumped_until: 'break', hold_s: 1500 },
      outcome: 'suspect',
      message: 'maybe-hidden',
    },
    {
      name: 'long and flat, and the marks tell of no isolation',
      facts: { vacuum_readings: 900, pumped_until: 'break', hold_s: 1500, marked: true },
      outcome: 'fail',
      message: 'none',
    },
    {
      name: 'a slight rise that the marks say nothing of',
      facts: { vacuum_readings: 900, pumped_until: 'break', hold_s: 1500, marked: true, turns_up: true },
      outcome: 'suspect',
      message: 'marks-disagree',
    },
    {
      name: 'log cut while pumping',
      facts: { vacuum_readings: 900, pumped_until: 'log-end', hold_s: 100 },
      outcome: 'not-evaluated',
      message: 'log-ends',
    },
    {
      name: 'nothing was pumped while the log ran',
      facts: { vacuum_readings: 900, rise_shape: 'absent' },
      outcome: 'not-evaluated',
      message: 'no-pull',
    },
    ...vacuumLogExamples,
  ],
  judge(facts, { shortest_s, flat_s }) {
    const problem = vacuumLogProblem(facts);
    if (problem !== undefined) return problem;
    const { isolation_start_s: start, isolation_end_s: end, hold_s, pumped_until } = facts;
    if (start !== undefined && end !== undefined) {
      const result = { value: end - start, limit: shortest_s.value, unit: 's' as const };
      const evidence = {
        isolation_s: end - start,
        isolation_start_s: start,
        isolation_basis: facts.isolation_basis,
        shortest_s: shortest_s.value,
      };
      if (end - start < shortest_s.value) return { ...result, outcome: 'fail', message: 'too-brief', evidence };
      return { ...result, outcome: 'pass', message: 'tested', evidence };
    }
    const evidence = { hold_s, pumped_until };
    if (pumped_until === undefined) return { outcome: 'not-evaluated', message: 'no-pull', evidence };
    if (pumped_until === 'log-end') return { outcome: 'not-evaluated', message: 'log-ends', evidence };
    if (facts.turns_up) return { outcome: 'suspect', message: 'marks-disagree', evidence };
    if (!facts.marked && (hold_s ?? 0) >= flat_s.value)
      return { outcome: 'suspect', message: 'maybe-hidden', evidence };
    return { outcome: 'fail', message: 'none', evidence };
  },
});
