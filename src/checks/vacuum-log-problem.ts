import type { Facts } from '../records/tables/facts.ts';
import type { CheckExample, Judgement } from './check.ts';

/** Messages of every check that reads the vacuum log. */
export const vacuumLogMessages = {
  'no-vacuum-log': 'There is no vacuum log.',
  'compound-gauge': 'A compound gauge cannot carry a judgement in microns.',
  'too-few-readings': 'The vacuum log has {vacuum_readings} readings, too few to judge.',
  'other-unit':
    'The vacuum looks like another unit than pascals (see the check of units), so nothing is said of how deep it was or how it rose.',
  'time-unit':
    'The times of the log look like another unit than seconds (see the check of units), so nothing is said of the vacuum.',
} as const;

/** Examples of every check that reads the vacuum log. */
export const vacuumLogExamples: readonly CheckExample<keyof typeof vacuumLogMessages>[] = [
  { name: 'no log', facts: {}, outcome: 'missing', message: 'no-vacuum-log' },
  {
    name: 'compound gauge',
    facts: { vacuum_readings: 900, vacuum_problem: 'compound-gauge' },
    outcome: 'not-evaluated',
    message: 'compound-gauge',
  },
  {
    name: 'seven readings',
    facts: { vacuum_readings: 7, vacuum_problem: 'too-few-readings' },
    outcome: 'not-evaluated',
    message: 'too-few-readings',
  },
  ...(['other-unit', 'time-unit'] as const).map((problem) => ({
    name: problem,
    facts: { vacuum_readings: 900, vacuum_problem: problem },
    outcome: 'not-evaluated' as const,
    message: problem,
  })),
];

/** The judgement where the vacuum log is missing or carries none; undefined where it can be judged. */
export function vacuumLogProblem(facts: Partial<Facts>): Judgement<keyof typeof vacuumLogMessages> | undefined {
  if (facts.vacuum_readings === undefined) return { outcome: 'missing', message: 'no-vacuum-log', evidence: {} };
  if (facts.vacuum_problem === undefined) return undefined;
  return {
    outcome: 'not-evaluated',
    message: facts.vacuum_problem,
    evidence: { vacuum_readings: facts.vacuum_readings },
  };
}
