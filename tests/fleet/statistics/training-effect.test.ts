import { expect, test } from 'vitest';
import { trainingEffect } from '../../../src/fleet/statistics/training-effect.ts';
import { chosenForTraining, trained } from './over-time-power.ts';

const jobs = (found: number, count: number, chance = 0.25) => ({
  found: Array.from({ length: count }, (_, job) => (job < found ? 1 : 0)),
  chances: Array.from({ length: count }, () => chance),
});

const figures = new Map([...chosenForTraining(2, 1500), ...trained(2, 1000)].map(({ what, figure }) => [what, figure]));

// Measured on 20,000 drawings; the limits hold what a thousand of them stray by.
test.each([
  ['worst of 12 who differ by 0 (taken for 0), 60 jobs a side, no effect: better', 0.005, 0.035],
  ['worst of 12 who differ by 0 (taken for 0), 60 jobs a side, no effect: a naive comparison shows better', 0.12, 0.2],
  ['worst of 12 who differ by 0.4 (taken for 0.4), 60 jobs a side, no effect: better', 0.01, 0.04],
  ['worst of 12 who differ by 0.4 (taken for 0.4), 60 jobs a side, no effect: worse', 0.008, 0.04],
  [
    'worst of 12 who differ by 0.4 (taken for 0.4), 60 jobs a side, no effect: a naive comparison shows better',
    0.06,
    0.12,
  ],
  ['odds × 0.4, people differ by 0, 60 jobs a side: the interval holds the truth', 0.935, 0.975],
  ['odds × 0.4, people differ by 0.4, 60 jobs a side: the interval holds the truth', 0.94, 0.98],
  ['odds × 0.4, people differ by 0.4, 20 jobs a side: the interval holds the truth', 0.95, 0.99],
  ['odds × 0.4, people differ by 0, 60 jobs a side: better', 0.66, 0.78],
  ['odds × 0.4, people differ by 0.4, 60 jobs a side: better', 0.46, 0.58],
])('%s: %d to %d', (what, least, most) => {
  expect(figures.get(what)).toBeGreaterThan(least);
  expect(figures.get(what)).toBeLessThan(most);
});

test('counts, shares and what was expected are told for either side', () => {
  const { before, after, verdict } = trainingEffect({ before: jobs(20, 40), after: jobs(4, 50, 0.2), spread: 0.5 });
  expect(before).toEqual({ jobs: 40, found: 20, expected: 10, share: 0.5 });
  expect(after).toMatchObject({ jobs: 50, found: 4, share: 0.08 });
  expect(after.expected).toBeCloseTo(10, 12);
  expect(verdict).toBe('better');
});

test('where people are alike, the baseline is what was expected; the more they differ, the nearer to what was found before', () => {
  const baselines = [0, 0.3, 1, 100].map(
    (spread) => trainingEffect({ before: jobs(20, 40), after: jobs(10, 40), spread }).baseline ?? Number.NaN,
  );
  expect(baselines[0]).toBeCloseTo(0.25, 12);
  expect(baselines[3]).toBeCloseTo(0.5, 3);
  expect(baselines).toEqual([...baselines].sort((a, b) => a - b));
});

test('with all known, the odds ratio and its interval are those of two shares', () => {
  // Textbook: logarithm of the odds ratio of 200 of 1,000 against 300 of 1,000, its variance the sum of one over each count.
  const { oddsRatio } = trainingEffect({ before: jobs(300, 1000), after: jobs(200, 1000), spread: 1000 });
  const log = Math.log((200 * 700) / (800 * 300));
  const half = 1.959964 * Math.sqrt(1 / 200 + 1 / 800 + 1 / 300 + 1 / 700);
  expect(Math.log(oddsRatio.mid)).toBeCloseTo(log, 2);
  expect(Math.log(oddsRatio.low)).toBeCloseTo(log - half, 2);
  expect(Math.log(oddsRatio.high)).toBeCloseTo(log + half, 2);
});

test('none or all found stays finite', () => {
  for (const found of [0, 30]) {
    const { oddsRatio } = trainingEffect({ before: jobs(8, 30), after: jobs(found, 30), spread: 0.4 });
    for (const value of Object.values(oddsRatio)) expect(Number.isFinite(Math.log(value))).toBe(true);
  }
});

test('chances of 0 and 1 have odds as well', () => {
  const { oddsRatio } = trainingEffect({ before: jobs(2, 20, 0), after: jobs(18, 20, 1), spread: 0.4 });
  for (const value of Object.values(oddsRatio)) expect(Number.isFinite(Math.log(value))).toBe(true);
});

test('under ten judged jobs on a side there is no verdict, with ten there is', () => {
  const verdict = (before: number, after: number) =>
    trainingEffect({ before: jobs(0, before, 0.5), after: jobs(after, after, 0.5), spread: 0 }).verdict;
  expect(verdict(9, 40)).toBe('too-few');
  expect(verdict(40, 9)).toBe('too-few');
  expect(verdict(0, 0)).toBe('too-few');
  expect(verdict(10, 10)).toBe('worse');
});
