import { runProblems } from '../records/run-test-columns.ts';
import type { Facts } from '../records/tables/facts.ts';
import type { CheckExample, Judgement } from './check.ts';

/** Messages of every check that reads the run test. */
export const runMessages = {
  'no-log': 'There is no log of a running system.',
  'run-unseen': 'The log does not tell when the system ran.',
  'not-running': 'The log shows pressures or temperatures, but never the system running.',
  short: 'The system ran for only {run_s}; it takes 15 min to settle.',
  'short-since-change':
    'The system ran for only {run_since_change_s} after its charge was last changed ({run_s} in all); it takes 15 min to settle.',
  'not-steady': 'In {run_s} of running pressures and temperatures never stood still long enough.',
  heating: 'The system was heating or defrosting; only cooling is judged.',
  'no-suction': 'No pressure was read while the system ran.',
  swapped: 'The columns of suction and liquid pressure look swapped, so nothing is said of the run.',
  'clamp-off': 'A clamp shows the air, not its pipe, so nothing is said of the run.',
  'below-dew':
    'The lines are on the wrong side of saturation: a clamp, a gauge or the refrigerant is not what the record says.',
  'off-curve':
    'A pressure of the run is one at which the refrigerant on record does not boil: another unit, another refrigerant, or a gauge that is off.',
  'pressure-unit':
    'While the system ran no pressure is ever above that of the air by as much again: another unit than the column says.',
  'other-unit':
    'A column of the run looks like another unit than its name says (see the check of units), so nothing is said of the run.',
  'time-unit':
    'The times of the log look like another unit than seconds (see the check of units), so nothing is said of the run.',
  'air-absurd':
    'Air temperatures of the run are such as no house has: another unit than the column says, or columns mixed up.',
  'unknown-refrigerant': 'The record names no known refrigerant, so there is no saturation to count from.',
} as const;

type RunMessage = keyof typeof runMessages;

/** Examples of every check that reads the run test. */
export const runExamples: readonly CheckExample<RunMessage>[] = [
  { name: 'no log', facts: {}, outcome: 'missing', message: 'no-log' },
  {
    name: 'trimmed ten minutes before the end',
    facts: { run_readings: 240, run_s: 1500, run_since_change_s: 600, run_problem: 'short' },
    outcome: 'not-evaluated',
    message: 'short-since-change',
  },
  ...runProblems.map((problem) => ({
    name: problem,
    facts: { run_readings: 240, run_s: 600, run_problem: problem },
    outcome: 'not-evaluated' as const,
    message: problem,
  })),
];

/** The judgement where no run can be judged; undefined where one can. */
export function runProblem(facts: Partial<Facts>): Judgement<RunMessage> | undefined {
  const { run_readings: readings, run_problem: problem, run_s = 0, run_since_change_s } = facts;
  if (readings === undefined) return { outcome: 'missing', message: 'no-log', evidence: {} };
  if (problem === undefined) return undefined;
  const message = problem === 'short' && run_since_change_s !== undefined ? 'short-since-change' : problem;
  return { outcome: 'not-evaluated', message, evidence: { run_readings: readings, run_s, run_since_change_s } };
}
