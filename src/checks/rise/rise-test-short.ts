import { z } from 'zod';
import { check, limit } from '../check.ts';
import { isolationOrProblem, riseExamples, riseMessages } from '../rise-problem.ts';
import { slackRatio } from '../slack-ratio.ts';

const isolated = (startS: number, endS: number) => ({
  vacuum_readings: 900,
  isolation_start_s: startS,
  isolation_end_s: endS,
});

/** Whether the isolated system was watched for as long as asked. */
export const riseTestShort = check({
  id: 'rise-test-short',
  group: 'rise',
  asks: 'test-made',
  revisit: 'moisture',
  question: 'Was the isolated system watched for long enough?',
  needs: ['isolation_start_s', 'isolation_end_s'],
  limits: {
    asked_s: limit({
      description: 'Length of the rise test',
      unit: 's',
      schema: z.number().min(0).max(604800),
      default: 300,
      source: 'common-practice',
      recorded: 'rise_test_s',
    }),
    slack_ratio: slackRatio,
  },
  messages: {
    ...riseMessages,
    'long-enough': 'The log shows the system isolated for {isolation_s}; {asked_s} were asked for.',
    'maybe-short':
      'The log shows the system isolated for {isolation_s}, which may be {shortest_s} to {longest_s}, as the valve-off is not sharp; {asked_s} were asked for.',
    short: 'The log shows the system isolated for only {isolation_s}; {asked_s} were asked for.',
  },
  teach:
    'A slow leak and a slow drying both need time to show. Write down the time at valve-off, and stop the log only when the asked time is over.',
  references: ['common-practice'],
  examples: [
    { name: 'ten minutes', facts: isolated(1200, 1800), outcome: 'pass', message: 'long-enough' },
    {
      name: 'four minutes and fifty seconds where five minutes are asked: nobody’s watch is better',
      facts: isolated(1200, 1490),
      outcome: 'pass',
      message: 'long-enough',
    },
    { name: 'three minutes where five are asked', facts: isolated(1200, 1380), outcome: 'fail', message: 'short' },
    {
      name: 'ten minutes where the record asks for an hour',
      facts: isolated(1200, 1800),
      limits: { asked_s: 3600 },
      outcome: 'fail',
      message: 'short',
    },
    {
      name: 'four minutes or five and a half: the valve-off is not sharp',
      facts: { ...isolated(1200, 1470), isolation_start_low_s: 1140, isolation_start_high_s: 1230 },
      outcome: 'suspect',
      message: 'maybe-short',
    },
    ...riseExamples,
  ],
  judge(facts, { asked_s, slack_ratio }) {
    const isolation = isolationOrProblem(facts);
    if ('problem' in isolation) return isolation.problem;
    const { isolationS, shortestS, longestS } = isolation;
    const result = {
      value: isolationS,
      limit: asked_s.value,
      unit: 's' as const,
      evidence: {
        isolation_s: isolationS,
        shortest_s: shortestS,
        longest_s: longestS,
        asked_s: asked_s.value,
        asked_source: asked_s.source,
      },
    };
    const leastS = asked_s.value * (1 - slack_ratio.value);
    if (isolationS >= leastS) return { ...result, outcome: 'pass', message: 'long-enough' };
    if (longestS < leastS) return { ...result, outcome: 'fail', message: 'short' };
    return { ...result, outcome: 'suspect', message: 'maybe-short' };
  },
});
