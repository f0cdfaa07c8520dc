import type { Facts } from '../records/tables/facts.ts';
import type { CheckExample, Judgement } from './check.ts';
import { vacuumLogExamples, vacuumLogMessages, vacuumLogProblem } from './vacuum-log-problem.ts';

/** Messages of every check that judges an isolation. */
export const riseMessages = {
  ...vacuumLogMessages,
  'no-isolation': 'No isolation shows in the log, so there is no rise to judge.',
} as const;

type RiseMessage = keyof typeof riseMessages;

/** Examples of every check that judges an isolation. */
export const riseExamples: readonly CheckExample<RiseMessage>[] = [
  ...vacuumLogExamples,
  {
    name: 'no isolation',
    facts: { vacuum_readings: 900, rise_shape: 'absent' },
    outcome: 'not-evaluated',
    message: 'no-isolation',
  },
];

/** How long the system was isolated [s], and what it may have been at least and at most, as its start is uncertain. */
export interface IsolationLength {
  readonly isolationS: number;
  readonly shortestS: number;
  readonly longestS: number;
}

/** The length of the isolation, or the judgement where there is none to judge. */
export function isolationOrProblem(facts: Partial<Facts>): IsolationLength | { problem: Judgement<RiseMessage> } {
  const problem = vacuumLogProblem(facts);
  if (problem !== undefined) return { problem };
  const { isolation_start_s: start, isolation_end_s: end, rise_shape } = facts;
  if (start === undefined || end === undefined || rise_shape === 'absent')
    return { problem: { outcome: 'not-evaluated', message: 'no-isolation', evidence: {} } };
  return {
    isolationS: end - start,
    shortestS: Math.min(end - start, end - (facts.isolation_start_high_s ?? start)),
    longestS: Math.max(end - start, end - (facts.isolation_start_low_s ?? start)),
  };
}
