import { stabilisingS } from '../../facts/run-test/steady-run.ts';
import { check } from '../check.ts';
import { runExamples, runMessages, runProblem } from '../run-problem.ts';

const ran = { run_readings: 240, run_s: 1500, steady_start_s: 900, steady_end_s: 1500 };

/** Whether the system was run until it could be read. */
export const noRunTest = check({
  id: 'no-run-test',
  group: 'run-test',
  asks: 'test-made',
  revisit: 'running',
  question: 'Was the system run until it was steady, and read?',
  needs: ['run_readings', 'run_s', 'steady_start_s', 'steady_end_s'],
  limits: {},
  messages: {
    ...runMessages,
    ran: 'The system ran for {run_s}, and stood still over the last {steady_s} that are judged.',
  },
  teach:
    'Fifteen minutes at least, doors shut, filters clean, both clamps on bright pipe and under insulation; and only then read. What is read while it still moves says nothing.',
  references: ['title-24-ra3-2', 'common-practice'],
  examples: [
    { name: 'twenty-five minutes', facts: ran, outcome: 'pass', message: 'ran' },
    ...runExamples.map((example) =>
      example.message === 'short' || example.message === 'short-since-change' || example.message === 'not-steady'
        ? { ...example, outcome: 'suspect' as const }
        : example,
    ),
  ],
  judge(facts) {
    const problem = runProblem(facts);
    const { run_s = 0, run_since_change_s = run_s, steady_start_s: startS, steady_end_s: endS } = facts;
    const isTooShort = facts.run_problem === 'short' || facts.run_problem === 'not-steady';
    if (problem !== undefined && isTooShort)
      return { ...problem, outcome: 'suspect', value: run_since_change_s, limit: stabilisingS, unit: 's' };
    if (problem !== undefined) return problem;
    if (startS === undefined || endS === undefined)
      return { outcome: 'not-evaluated', message: 'run-unseen', evidence: {} };
    return {
      outcome: 'pass',
      message: 'ran',
      value: run_since_change_s,
      limit: stabilisingS,
      unit: 's',
      evidence: { run_s, steady_s: endS - startS },
    };
  },
});
