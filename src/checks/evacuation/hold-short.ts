import { z } from 'zod';
import { type HoldLadder, holdAtOrBelow } from '../../facts/hold-ladder.ts';
import { check, limit } from '../check.ts';
import { vacuumLogExamples, vacuumLogMessages, vacuumLogProblem } from '../vacuum-log-problem.ts';

const ladder = (...rungs: [number, number][]) => JSON.stringify(rungs);

/** Whether the vacuum was held long enough at or below its target. */
export const holdShort = check({
  id: 'hold-short',
  group: 'evacuation',
  revisit: 'moisture',
  question: 'Was the vacuum held long enough at or below its target?',
  needs: ['hold_ladder', 'pumped_until'],
  limits: {
    hold_s: limit({
      description: 'Time to stay at or below the target, pump connected',
      unit: 's',
      schema: z.number().min(0).max(604800),
      default: 900,
      source: 'common-practice',
      recorded: 'hold_target_s',
    }),
    target_pa: limit({
      description: 'Vacuum to hold, absolute',
      unit: 'Pa',
      schema: z.number().positive().max(101325),
      default: 66.661184,
      source: 'common-practice',
      recorded: 'vacuum_target_pa',
    }),
    slack_ratio: limit({
      description: 'A hold shorter than wanted by no more than this ratio of it counts as long enough',
      schema: z.number().min(0).max(0.5),
      default: 0.05,
      source: 'common-practice',
    }),
  },
  messages: {
    ...vacuumLogMessages,
    'long-enough':
      'With the pump connected the vacuum was at or below {target_pa} for {hold_s}; {wanted_s} were wanted.',
    short: 'With the pump connected the vacuum was at or below {target_pa} for only {hold_s}; {wanted_s} were wanted.',
    'maybe-short':
      'With the pump connected the vacuum was at or below {target_pa} for {hold_s}, or for up to {longest_s}, as the valve-off is not sharp; {wanted_s} were wanted.',
    'target-never-reached':
      'With the pump connected the vacuum never was at or below {target_pa}, so there was nothing to hold.',
    'log-ends':
      'The log ends with the pump still connected; so far the vacuum was at or below {target_pa} for {hold_s}, and {wanted_s} were wanted.',
    'no-pull': 'The log shows no pull-down, so the hold before the isolation is not in it.',
    'target-too-deep': 'A hold at or below {target_pa} was not kept with the facts.',
  },
  teach:
    'Reaching the target is the beginning: oil and tube walls give off water for a long while. Hold the pump on until the target plus the holding time, then valve off at the system.',
  references: ['common-practice'],
  examples: [
    {
      name: '20 minutes',
      facts: { vacuum_readings: 900, hold_ladder: ladder([66.661184, 1200]), pumped_until: 'isolation' },
      outcome: 'pass',
      message: 'long-enough',
    },
    {
      name: '2 minutes, then the valve',
      facts: { vacuum_readings: 900, hold_ladder: ladder([66.661184, 120]), pumped_until: 'isolation' },
      outcome: 'fail',
      message: 'short',
    },
    {
      name: '14 and a half minutes where 15 are wanted: nobody’s watch is better',
      facts: { vacuum_readings: 900, hold_ladder: ladder([66.661184, 870]), pumped_until: 'isolation' },
      outcome: 'pass',
      message: 'long-enough',
    },
    {
      name: '12 minutes, and the valve-off may have been 4 minutes later',
      facts: {
        vacuum_readings: 900,
        hold_ladder: ladder([66.661184, 720]),
        pumped_until: 'isolation',
        isolation_start_s: 1200,
        isolation_start_high_s: 1440,
      },
      outcome: 'suspect',
      message: 'maybe-short',
    },
    {
      name: '2 minutes, then the log ends',
      facts: { vacuum_readings: 900, hold_ladder: ladder([66.661184, 120]), pumped_until: 'log-end' },
      outcome: 'not-evaluated',
      message: 'log-ends',
    },
    {
      name: 'the lower rung of a rounded target judges',
      facts: {
        vacuum_readings: 900,
        hold_ladder: ladder([33.330592, 1000], [66.661184, 1200]),
        pumped_until: 'isolation',
      },
      limits: { target_pa: 33.33 },
      outcome: 'pass',
      message: 'long-enough',
    },
    {
      name: 'never there',
      facts: { vacuum_readings: 900, hold_ladder: ladder([66.661184, 0]), pumped_until: 'break' },
      outcome: 'fail',
      message: 'target-never-reached',
    },
    { name: 'log begins isolated', facts: { vacuum_readings: 150 }, outcome: 'not-evaluated', message: 'no-pull' },
    {
      name: 'a target below the ladder',
      facts: { vacuum_readings: 900, hold_ladder: ladder([66.661184, 1200]), pumped_until: 'isolation' },
      limits: { target_pa: 5 },
      outcome: 'not-evaluated',
      message: 'target-too-deep',
    },
    ...vacuumLogExamples,
  ],
  judge(facts, { hold_s, target_pa, slack_ratio }) {
    const problem = vacuumLogProblem(facts);
    if (problem !== undefined) return problem;
    const asked = {
      target_pa: target_pa.value,
      target_source: target_pa.source,
      wanted_s: hold_s.value,
      wanted_source: hold_s.source,
    };
    if (facts.hold_ladder === undefined) return { outcome: 'not-evaluated', message: 'no-pull', evidence: asked };
    const held = holdAtOrBelow(JSON.parse(facts.hold_ladder) as HoldLadder, target_pa.value);
    if (held === undefined) return { outcome: 'not-evaluated', message: 'target-too-deep', evidence: asked };
    // Where the valve-off is not sharp, the pump may have been on for longer.
    const { isolation_start_s: start, isolation_start_high_s: startHigh } = facts;
    const longest = held + (start === undefined || startHigh === undefined ? 0 : Math.max(0, startHigh - start));
    const result = {
      value: held,
      limit: hold_s.value,
      unit: 's' as const,
      evidence: { hold_s: held, longest_s: longest, pumped_until: facts.pumped_until, ...asked },
    };
    const leastS = hold_s.value * (1 - slack_ratio.value);
    if (held >= leastS) return { ...result, outcome: 'pass', message: 'long-enough' };
    if (facts.pumped_until === 'log-end') return { ...result, outcome: 'not-evaluated', message: 'log-ends' };
    if (held > 0 && longest >= leastS) return { ...result, outcome: 'suspect', message: 'maybe-short' };
    return { ...result, outcome: 'fail', message: held > 0 ? 'short' : 'target-never-reached' };
  },
});
