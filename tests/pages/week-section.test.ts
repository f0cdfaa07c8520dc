import { expect, test } from 'vitest';
import { weekLines, weekSection } from '../../src/pages/week-section.ts';
import { serviceManagerSample } from './service-manager-sample.ts';

const sample = serviceManagerSample();

const toldOf = (before: typeof sample.week.before): string[] =>
  weekLines({ ...sample, week: { ...sample.week, jobs: 12, jobsJudged: 10, jobsFlagged: 1, before } }, 'ip').filter(
    (line) => / came in|^Flagged/.test(line),
  );

test('the last week stands beside the four before it', () => {
  expect(toldOf({ days: 28, jobs: 61, jobsJudged: 40, jobsFlagged: 0 })).toEqual([
    '12 jobs came in; in the four weeks before it was 15 a week.',
    'Flagged: 1 of 10 (10%, 2–40%) of the judged jobs; in the four weeks before, 0 of 40 (0%, 0–9%).',
  ]);
});

test('of a record that begins later it is said of how many days, and nothing where there is no whole week', () => {
  expect(toldOf({ days: 10, jobs: 20, jobsJudged: 20, jobsFlagged: 0 })[0]).toBe(
    '12 jobs came in; in the 10 days before it was 14 a week.',
  );
  expect(toldOf({ days: 0, jobs: 0, jobsJudged: 0, jobsFlagged: 0 })).toEqual([
    '12 jobs came in; no whole week is on record before.',
    'Flagged: 1 of 10 (10%, 2–40%) of the judged jobs.',
  ]);
});

test('without any job there is no week to tell of', () => {
  const none = { ...sample, week: { ...sample.week, from: '', to: '' } };
  expect(weekSection(none, 'ip').source).toContain('There are no jobs in the data.');
  expect(weekSection(none, 'ip').source).not.toContain('<li>');
});

test('the week is told in ten lines', () => {
  expect(weekLines(sample, 'si')).toHaveLength(10);
});
