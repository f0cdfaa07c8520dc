import { z } from 'zod';
import { check, limit } from '../check.ts';
import { vacuumLogExamples, vacuumLogMessages, vacuumLogProblem } from '../vacuum-log-problem.ts';

/** Whether the vacuum went as deep as it should. */
export const targetNotReached = check({
  id: 'target-not-reached',
  group: 'evacuation',
  gear: ['pump', 'hose-set', 'gauge'],
  revisit: 'moisture',
  question: 'Was the system evacuated down to its target?',
  needs: ['deepest_pa'],
  limits: {
    target_pa: limit({
      description: 'Vacuum to reach, absolute',
      unit: 'Pa',
      schema: z.number().positive().max(101325),
      default: 66.661184,
      source: 'common-practice',
      recorded: 'vacuum_target_pa',
    }),
  },
  messages: {
    ...vacuumLogMessages,
    reached: 'The vacuum reached {deepest_pa}; the target was {target_pa}.',
    'within-accuracy':
      'The vacuum reached {deepest_pa}, above the target of {target_pa} by less than the accuracy of the gauge.',
    'not-reached': 'The vacuum reached only {deepest_pa}; the target was {target_pa}.',
    'over-range': 'The gauge stayed above its range; the target was {target_pa}.',
  },
  teach:
    'A vacuum that will not come down means wet, leaking, a tired pump, or a hose too narrow for it. Pull the cores, use short wide hoses, change the pump oil, read the gauge at the system and not at the pump. Never run the compressor in vacuum.',
  references: ['common-practice'],
  examples: [
    {
      name: 'deep enough',
      facts: { vacuum_readings: 900, deepest_pa: 30 },
      limits: { target_pa: 33.33 },
      outcome: 'pass',
      message: 'reached',
    },
    {
      name: 'stuck at 900 µm',
      facts: { vacuum_readings: 900, deepest_pa: 120 },
      outcome: 'fail',
      message: 'not-reached',
    },
    {
      name: '520 µm by a gauge good to 10 %',
      facts: { vacuum_readings: 900, deepest_pa: 69.3, gauge_accuracy_ratio: 0.1 },
      outcome: 'suspect',
      message: 'within-accuracy',
    },
    { name: 'never in range', facts: { vacuum_readings: 900 }, outcome: 'fail', message: 'over-range' },
    ...vacuumLogExamples,
  ],
  judge(facts, { target_pa }) {
    const problem = vacuumLogProblem(facts);
    if (problem !== undefined) return problem;
    const deepest = facts.deepest_pa;
    const held = { value: deepest, limit: target_pa.value, unit: 'Pa' as const };
    const evidence = {
      deepest_pa: deepest,
      target_pa: target_pa.value,
      target_source: target_pa.source,
      gauge_accuracy_ratio: facts.gauge_accuracy_ratio,
    };
    if (deepest === undefined) return { ...held, outcome: 'fail', message: 'over-range', evidence };
    if (deepest <= target_pa.value) return { ...held, outcome: 'pass', message: 'reached', evidence };
    const lowestPossible = deepest * (1 - (facts.gauge_accuracy_ratio ?? 0));
    if (lowestPossible <= target_pa.value) return { ...held, outcome: 'suspect', message: 'within-accuracy', evidence };
    return { ...held, outcome: 'fail', message: 'not-reached', evidence };
  },
});
