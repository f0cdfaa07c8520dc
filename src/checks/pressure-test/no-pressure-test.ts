import { z } from 'zod';
import { check, limit } from '../check.ts';
import { neverHeld, noHoldExamples, pressureHoldMessages, pressureHoldOrProblem } from '../pressure-test-problem.ts';

// 300 psig at sea level.
const held = { pressure_readings: 900, pressure_hold_start_s: 300, pressure_hold_end_s: 2100, held_test_pa: 2169752 };

/** Whether the system was tested with pressure at all. */
export const noPressureTest = check({
  id: 'no-pressure-test',
  group: 'pressure-test',
  asks: 'test-made',
  revisit: 'leak',
  question: 'Was the system pressure-tested with nitrogen?',
  needs: ['pressure_readings', 'pressure_hold_start_s', 'pressure_hold_end_s'],
  limits: {
    shortest_s: limit({
      description: 'A hold shorter than this is no test',
      unit: 's',
      schema: z.number().min(0).max(604800),
      default: 60,
      source: 'common-practice',
    }),
  },
  messages: {
    ...pressureHoldMessages,
    tested: 'The system was shut in at {held_test_pa} for {hold_s}.',
    'too-brief': 'The system was shut in at {held_test_pa} for only {hold_s}; a test takes at least {shortest_s}.',
  },
  teach:
    'Nitrogen shows leaks that a vacuum cannot: it pushes with twenty atmospheres, a vacuum pulls with one. Dry nitrogen only, never oxygen and never air, which explode with oil; always through a regulator, with a relief device. Shut the cylinder off, write down the pressure and the temperature of the pipe, and watch. Let the pressure off before anything is soldered or opened.',
  references: ['ashrae-15-1994', 'common-practice'],
  examples: [
    { name: 'half an hour at 300 psig', facts: held, outcome: 'pass', message: 'tested' },
    {
      name: 'forty seconds',
      facts: { ...held, pressure_hold_end_s: 340 },
      outcome: 'fail',
      message: 'too-brief',
    },
    { name: 'filled and let off', facts: neverHeld, outcome: 'fail', message: 'never-held' },
    ...noHoldExamples,
  ],
  judge(facts, { shortest_s }) {
    const hold = pressureHoldOrProblem(facts);
    if ('problem' in hold)
      return hold.problem.message === 'never-held' ? { ...hold.problem, outcome: 'fail' } : hold.problem;
    const { holdS, heldPa, airPa } = hold;
    const result = {
      value: holdS,
      limit: shortest_s.value,
      unit: 's' as const,
      evidence: {
        hold_s: holdS,
        held_test_pa: heldPa,
        atmosphere_pa: airPa,
        pressure_stages: facts.pressure_stages,
        shortest_s: shortest_s.value,
        shortest_source: shortest_s.source,
      },
    };
    if (holdS < shortest_s.value) return { ...result, outcome: 'fail', message: 'too-brief' };
    return { ...result, outcome: 'pass', message: 'tested' };
  },
});
