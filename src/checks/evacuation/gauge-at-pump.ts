import { z } from 'zod';
import { check, limit } from '../check.ts';
import { isolationOrProblem, riseExamples, riseMessages } from '../rise-problem.ts';

const isolated = { vacuum_readings: 900, isolation_start_s: 1200, isolation_end_s: 1800, isolation_pa: 33.330592 };

const jumped = 'Within seconds after valve-off the pressure jumped by {isolation_jump_pa}, from {isolation_pa}';

/** Whether the gauge read the pump rather than the system. */
export const gaugeAtPump = check({
  id: 'gauge-at-pump',
  group: 'evacuation',
  revisit: 'moisture',
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
    position: limit<'system' | 'pump' | 'not-recorded'>({
      description: 'Where the gauge sat; it changes what is said of a jump, not the outcome',
      schema: z.enum(['system', 'pump', 'not-recorded']),
      default: 'not-recorded',
      source: 'common-practice',
      recorded: 'gauge_position',
    }),
  },
  messages: {
    ...riseMessages,
    'no-jump': 'At valve-off, from {isolation_pa} on, the pressure jumped by no more than {isolation_jump_pa}.',
    jump: `${jumped}: while pumping, the gauge may have read the pump’s end of the hose and not the system, so the vacuum was less deep than it looked.`,
    'jump-at-pump': `${jumped}: while pumping, the gauge read the pump’s end of the hose, as the record has it, and the vacuum in the system was less deep than it looked.`,
    'jump-at-system': `${jumped}. The record has the gauge at the system; it may have been nearer to the pump, or volumes behind a narrow passage were pumped less deep.`,
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
      name: 'the same, and the record has the gauge at the pump',
      facts: { ...isolated, isolation_jump_pa: 26.7 },
      limits: { position: 'pump' },
      outcome: 'suspect',
      message: 'jump-at-pump',
    },
    {
      name: 'the same, and the record has the gauge at the system',
      facts: { ...isolated, isolation_jump_pa: 26.7 },
      limits: { position: 'system' },
      outcome: 'suspect',
      message: 'jump-at-system',
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
  judge(facts, { jump_ratio, least_pa, position }) {
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
      evidence: { isolation_jump_pa, isolation_pa, gauge_position: position.value, limit_source: jump_ratio.source },
    };
    if (isolation_jump_pa <= allowedPa) return { ...result, outcome: 'pass', message: 'no-jump' };
    const message = position.value === 'not-recorded' ? 'jump' : (`jump-at-${position.value}` as const);
    return { ...result, outcome: 'suspect', message };
  },
});
