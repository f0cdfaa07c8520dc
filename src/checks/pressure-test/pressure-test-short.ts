import { z } from 'zod';
import { check, limit } from '../check.ts';
import { pressureHoldExamples, pressureHoldMessages, pressureHoldOrProblem } from '../pressure-test-problem.ts';
import { slackRatio } from '../slack-ratio.ts';

// At 300 psig at sea level.
const held = (lengthS: number) => ({
  pressure_readings: 900,
  pressure_hold_start_s: 300,
  pressure_hold_end_s: 300 + lengthS,
  held_test_pa: 2169752,
});

/** Whether the pressure was held for as long as asked. */
export const pressureTestShort = check({
  id: 'pressure-test-short',
  group: 'pressure-test',
  asks: 'test-made',
  revisit: 'leak',
  question: 'Was the test pressure held for long enough?',
  needs: ['pressure_hold_start_s', 'pressure_hold_end_s'],
  limits: {
    asked_s: limit({
      description: 'Time to hold the test pressure',
      unit: 's',
      schema: z.number().min(0).max(604800),
      default: 900,
      source: 'common-practice',
      recorded: 'test_pressure_hold_s',
    }),
    slack_ratio: slackRatio,
  },
  messages: {
    ...pressureHoldMessages,
    'long-enough': 'The log shows the system shut in under pressure for {hold_s}; {asked_s} were asked for.',
    short: 'The log shows the system shut in under pressure for only {hold_s}; {asked_s} were asked for.',
  },
  teach:
    'The slower a leak, the longer it takes to show, and the gas needs a while to settle after filling. Count from the moment at which the valve is shut, leave the logger on until the asked time is over, and let a large circuit stand overnight. What time does not show, more pressure must not.',
  references: ['common-practice'],
  examples: [
    { name: 'half an hour', facts: held(1800), outcome: 'pass', message: 'long-enough' },
    {
      name: 'fourteen and a half minutes where fifteen are asked: nobody’s watch is better',
      facts: held(870),
      outcome: 'pass',
      message: 'long-enough',
    },
    { name: 'ten minutes where fifteen are asked', facts: held(600), outcome: 'fail', message: 'short' },
    {
      name: 'an evening and a night where the rule asks for a day',
      facts: held(54000),
      limits: { asked_s: 86400 },
      outcome: 'fail',
      message: 'short',
    },
    ...pressureHoldExamples,
  ],
  judge(facts, { asked_s, slack_ratio }) {
    const hold = pressureHoldOrProblem(facts);
    if ('problem' in hold) return hold.problem;
    const { holdS, heldPa, airPa } = hold;
    const result = {
      value: holdS,
      limit: asked_s.value,
      unit: 's' as const,
      evidence: {
        hold_s: holdS,
        held_test_pa: heldPa,
        atmosphere_pa: airPa,
        asked_s: asked_s.value,
        asked_source: asked_s.source,
      },
    };
    const leastS = asked_s.value * (1 - slack_ratio.value);
    if (holdS >= leastS) return { ...result, outcome: 'pass', message: 'long-enough' };
    return { ...result, outcome: 'fail', message: 'short' };
  },
});
