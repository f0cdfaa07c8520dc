import { z } from 'zod';
import { check, limit } from '../check.ts';
import { isolationOrProblem, riseExamples, riseMessages } from '../rise-problem.ts';

const isolated = { vacuum_readings: 900, isolation_start_s: 1200, isolation_end_s: 1800, isolation_pa: 33.330592 };

/** Whether the gauge read the pump rather than the system. */
export const gaugeAtPump = check({
  id: 'gauge-at-pump',
  group: 'evacuation',
  question: 'Did the gauge read the system, and not the pump’s end of the hose?',
  needs: ['isolation_jump_pa', 'isolation_pa'],
  limits: {
    jump_ratio: limit({
      description:
        'Jump within seconds after valve-off, as a ratio of the pressure at valve-off, from which it is suspect',
      schema: z.number().positive().max(100),
      default: 0.5,
      source: 'common-practice',
    }),
    least_pa: limit({
      description: 'A jump up to this is none: gauge steps and a valve that turns make as much',
      unit: 'Pa',
      schema: z.number().min(0).max(10000),
      default: 2.66644736,
      source: 'common-practice',
    }),
  },
  messages: {
    ...riseMessages,
    'no-jump': 'At valve-off, from {isolation_pa} on, the pressure jumped by no more than {isolation_jump_pa}.',
    jump: 'Within seconds after valve-off the pressure jumped by {isolation_jump_pa}, from {isolation_pa}: while pumping, the gauge may have read the pump’s end of the hose and not the system, so the vacuum was less deep than it looked.',
    'not-seen': 'The first seconds after valve-off do not show, so nothing is said of where the gauge sat.',
  },
  teach:
    'A gauge at the pump reads what the pump can do, not what the system has: along a narrow hose the two differ by as much as the reading. Put the gauge on the system, at the port farthest from the pump, with a valve between it and the hose.',
  references: ['vacuum-conductance', 'common-practice'],
  examples: [
    {
      name: 'a bump of 30 µm at 250 µm',
      facts: { ...isolated, isolation_jump_pa: 4 },
      outcome: 'pass',
      message: 'no-jump',
    },
    {
      name: 'from 250 to 450 µm in seconds',
      facts: { ...isolated, isolation_jump_pa: 26.7 },
      outcome: 'suspect',
      message: 'jump',
    },
    {
      name: 'from 20 to 35 µm: two steps of the gauge',
      facts: { ...isolated, isolation_pa: 2.67, isolation_jump_pa: 2 },
      outcome: 'pass',
      message: 'no-jump',
    },
    { name: 'one reading a minute', facts: isolated, outcome: 'not-evaluated', message: 'not-seen' },
    ...riseExamples,
  ],
  judge(facts, { jump_ratio, least_pa }) {
    const isolation = isolationOrProblem(facts);
    if ('problem' in isolation) return isolation.problem;
    const { isolation_jump_pa, isolation_pa } = facts;
    if (isolation_jump_pa === undefined || isolation_pa === undefined)
      return { outcome: 'not-evaluated', message: 'not-seen', evidence: {} };
    const allowedPa = Math.max(least_pa.value, jump_ratio.value * isolation_pa);
    const result = {
      value: isolation_jump_pa,
      limit: allowedPa,
      unit: 'Pa' as const,
      evidence: { isolation_jump_pa, isolation_pa, limit_source: jump_ratio.source },
    };
    return isolation_jump_pa > allowedPa
      ? { ...result, outcome: 'suspect', message: 'jump' }
      : { ...result, outcome: 'pass', message: 'no-jump' };
  },
});
