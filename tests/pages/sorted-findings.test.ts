import { expect, test } from 'vitest';
import { checks } from '../../src/checks/checks.ts';
import type { Outcome } from '../../src/checks/check.ts';
import { sortedFindings } from '../../src/pages/sorted-findings.ts';

const finding = (checkId: string, outcome: Outcome, text = '') => ({
  checkId,
  question: `${checkId}?`,
  outcome,
  text,
  basis: '',
  teach: '',
  unseen: '',
});

test('findings to look at come worst first, faults of the system before how the work was done', () => {
  const findings = [
    finding('hold-short', 'fail'),
    finding('gauge-at-pump', 'suspect'),
    finding('leaking', 'fail'),
    finding('pressure-not-held', 'fail'),
    finding('wet', 'suspect'),
    finding('no-such-check', 'fail'),
  ];
  const { flagged } = sortedFindings({ findings });
  expect(flagged.map(({ checkId }) => checkId)).toEqual([
    'pressure-not-held',
    'leaking',
    'hold-short',
    'no-such-check',
    'wet',
    'gauge-at-pump',
  ]);
});

test('what could not be judged is said once for each reason, what is missing first', () => {
  const none = 'No isolation shows.';
  const findings = [
    finding('wet', 'not-evaluated', none),
    finding('slow-pull-down', 'not-evaluated', 'No pump.'),
    finding('leaking', 'not-evaluated', none),
    finding('charge-off-target', 'missing', 'No weigh-in.'),
    finding('target-not-reached', 'pass', 'Reached.'),
  ];
  const { flagged, unjudged, passed } = sortedFindings({ findings });
  expect(flagged).toEqual([]);
  expect(unjudged).toEqual([
    { outcome: 'missing', text: 'No weigh-in.', questions: ['charge-off-target?'] },
    { outcome: 'not-evaluated', text: none, questions: ['wet?', 'leaking?'] },
    { outcome: 'not-evaluated', text: 'No pump.', questions: ['slow-pull-down?'] },
  ]);
  expect(passed.map(({ checkId }) => checkId)).toEqual(['target-not-reached']);
});

test('every finding of every check stands in one of the three', () => {
  const outcomes: Outcome[] = ['pass', 'suspect', 'fail', 'not-evaluated', 'missing'];
  const findings = checks.map(({ id }, index) => finding(id, outcomes[index % outcomes.length] ?? 'pass', id));
  const { flagged, unjudged, passed } = sortedFindings({ findings });
  const count = flagged.length + passed.length + unjudged.reduce((sum, { questions }) => sum + questions.length, 0);
  expect(count).toBe(checks.length);
});
