import { expect, test } from 'vitest';
import { changeSignals } from '../../../src/fleet/statistics/change-signals.ts';
import { cumulativeSum, oddsScore } from '../../../src/fleet/statistics/cumulative-sum.ts';
import { Random } from '../../../src/numerics/random.ts';
import { drawnSeries } from './drawn-series.ts';
import { falseSignals, foundChanges } from './over-time-power.ts';

const constant = (found: readonly number[], chance: number, daysApart = 4) => ({
  found,
  chances: found.map(() => chance),
  days: found.map((_, job) => job * daysApart),
});

// Measured on 20,000 series; the limits hold what 3,000 of them stray by.
test.each(falseSignals(2, 3000).filter(({ goal }) => goal !== ''))('$what: $measured', ({ what, figure }) => {
  expect(figure).toBeLessThan(0.014);
  if (what.includes('0.05 to 0.5')) expect(figure).toBeGreaterThan(0.003);
});

const found = new Map(foundChanges(2, 400).map(({ what, figure }) => [what, figure]));
test.each([
  ['odds × 3 at 0.2: cumulative-sum signals, median wait', 37, 47],
  ['odds × 3 at 0.2: cumulative-sum signals within 60 jobs', 0.73, 0.89],
  ['odds × 2 at 0.2: cumulative-sum signals within 120 jobs', 0.65, 0.82],
  ['odds × 0.5 at 0.3: cumulative-sum signals within 120 jobs', 0.55, 0.75],
  ['odds × 3 at 0.3: cumulative-sum signals, median wait', 32, 42],
  ['odds × 3 at 0.2: moving-average signals within 60 jobs', 0.65, 0.82],
  ['odds × 0.5 at 0.3: moving-average signals within 120 jobs', 0.3, 0.5],
  ['odds × 3 at 0.2: month of 30 signals within 60 jobs', 0.42, 0.59],
])('%s: %d to %d', (what, least, most) => {
  expect(found.get(what)).toBeGreaterThan(least);
  expect(found.get(what)).toBeLessThan(most);
});

test('the sums are those of the scores, until the first that reaches the limit', () => {
  const series = drawnSeries(new Random(4), { jobs: 300, chance: () => 0.2, oddsRatio: () => 2.5 });
  const scores = Array.from(series.found, (value, job) => oddsScore(value === 1, series.chances[job], 2));
  const [first] = changeSignals(series).filter(({ chart }) => chart === 'cumulative-sum');
  const sums = cumulativeSum(scores);
  expect(first.at).toBe(sums.findIndex((sum) => sum >= first.limit));
  expect(first.level).toBeCloseTo(sums[first.at], 12);
  expect(first.since).toBe(sums.slice(0, first.at).lastIndexOf(0) + 1);
});

test('a sum that left 0 with the job at which things went wrong says so', () => {
  const signals = changeSignals(constant([...Array(8).fill([1, 0, 0, 0, 0]).flat(), ...Array(20).fill(1)], 0.2));
  const [sum] = signals.filter(({ chart, direction }) => chart === 'cumulative-sum' && direction === 'worse');
  expect(sum).toMatchObject({ since: 40, at: 51 });
  expect(signals.find(({ chart }) => chart === 'moving-average')).toMatchObject({ direction: 'worse' });
});

test('an average that stays out signals once, a month that stays out too', () => {
  const signals = changeSignals(constant(Array(60).fill(1), 0.1));
  expect(signals.filter(({ chart }) => chart === 'moving-average')).toHaveLength(1);
  expect(signals.filter(({ chart }) => chart === 'month')).toHaveLength(1);
  expect(signals.filter(({ chart }) => chart === 'cumulative-sum')).toHaveLength(1);
  for (const { since, at, level, limit } of signals) {
    expect(since).toBeLessThanOrEqual(at);
    expect(level).toBeGreaterThanOrEqual(limit);
  }
});

test('who finds nothing where half is expected gets better on every chart', () => {
  const signals = changeSignals(constant(Array(60).fill(0), 0.5, 2));
  expect(new Set(signals.map(({ chart }) => chart)).size).toBe(3);
  for (const { direction, level, limit, chart } of signals) {
    expect(direction).toBe('better');
    if (chart !== 'cumulative-sum') expect(level).toBeLessThan(limit);
  }
});

test('what was expected for sure and came so sets nothing off; no job, no signal', () => {
  expect(changeSignals({ found: [0, 1, 0, 1], chances: [0, 1, 0, 1], days: [1, 2, 3, 4] })).toEqual([]);
  expect(changeSignals({ found: [], chances: [], days: [] })).toEqual([]);
});

test('a season that was expected sets nothing off; the same season unexpected does', () => {
  const season = (job: number) => 0.26 + 0.24 * Math.sin((2 * Math.PI * job) / 60);
  let [expected, unexpected] = [0, 0];
  for (let number = 0; number < 200; number += 1) {
    let job = 0;
    const series = drawnSeries(new Random(6, number), { jobs: 240, chance: () => season(job++) });
    if (changeSignals(series).length > 0) expected += 1;
    if (changeSignals({ ...series, chances: new Float64Array(240).fill(0.26) }).length > 0) unexpected += 1;
  }

  expect(expected).toBeLessThan(20);
  expect(unexpected).toBeGreaterThan(50);
});
