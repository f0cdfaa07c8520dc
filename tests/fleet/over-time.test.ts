import { expect, test } from 'vitest';
import { cumulativeSum, oddsScore } from '../../src/fleet/cumulative-sum.ts';
import { movingAverage } from '../../src/fleet/moving-average.ts';
import { pChart } from '../../src/fleet/p-chart.ts';
import { referenceRows } from '../reference-rows.ts';

const column = (key: string, file: string, name: string) => referenceRows(key, file).map((row) => row[name]);

test('reproduces the levels and limits of the moving average, NIST handbook 6.3.2.4', () => {
  const values = column('nist-sematech-handbook', 'moving-average.csv', 'value');
  const levels = column('nist-sematech-handbook', 'moving-average.csv', 'level');
  const variances = values.map(() => 2.0539 ** 2);
  const { level, deviation } = movingAverage(values, variances, 0.3, 50);
  // Printed levels are rounded on the way: half of the last place, and what is carried on.
  for (const [index, printed] of levels.entries()) expect(Math.abs(level[index] - printed)).toBeLessThan(0.01);
  expect(50 + 3 * (deviation.at(-1) ?? 0)).toBeCloseTo(52.5884, 3);
  expect(50 - 3 * (deviation.at(-1) ?? 0)).toBeCloseTo(47.4115, 3);
  expect(deviation[0]).toBeCloseTo(0.3 * 2.0539, 12);
});

test.each([
  ['nist-sematech-handbook', 'cumulative-sum.csv', 325, 0.3175, 4.1959, 14],
  ['montgomery-runger', 'values.csv', 99, 1, 10, 0],
])('reproduces the sums of %s, %s', (key, file, target, half, limit, signal) => {
  const values = column(key, file, 'value');
  const high = cumulativeSum(values.map((value) => value - target - half));
  const low = cumulativeSum(values.map((value) => target - half - value));
  for (const [index, sum] of column(key, file, 'high').entries()) expect(high[index]).toBeCloseTo(sum, 6);
  for (const [index, sum] of column(key, file, 'low').entries()) expect(low[index]).toBeCloseTo(sum, 6);
  expect(1 + high.findIndex((sum) => sum > limit)).toBe(signal);
  expect(1 + low.findIndex((sum) => sum > limit)).toBe(0);
});

test.each([
  ['nist-sematech-handbook', 50, 0.2313, 0.0524, 0.4102, [15, 23]],
  ['montgomery-runger', 200, 0.16, 0.0822, 0.2378, []],
])('reproduces the p-chart of %s', (key, jobs, centre, low, high, out) => {
  const chart = pChart(column(key, 'p-chart.csv', 'defective').map((found) => ({ found, jobs })));
  expect(chart?.centre).toBeCloseTo(centre, 4);
  expect(chart?.points[0].low).toBeCloseTo(low, 4);
  expect(chart?.points[0].high).toBeCloseTo(high, 4);
  expect(chart?.points.flatMap(({ isOut }, index) => (isOut ? index + 1 : []))).toEqual(out);
});

test('a period without jobs has no share and is not out; without any job there is no chart', () => {
  const chart = pChart([
    { found: 1, jobs: 5 },
    { found: 0, jobs: 0 },
  ]);
  expect(chart?.points[1]).toMatchObject({ share: Number.NaN, isOut: false });
  expect(pChart([{ found: 0, jobs: 0 }])).toBeUndefined();
});

test('scores of a job weigh its odds: on average they fall where nothing changed, and rise where the odds did', () => {
  for (const chance of [0.02, 0.3, 0.9]) {
    const raised = (2 * chance) / (1 + chance);
    const mean = (share: number) => share * oddsScore(true, chance, 2) + (1 - share) * oddsScore(false, chance, 2);
    expect(mean(chance)).toBeLessThan(0);
    expect(mean(raised)).toBeGreaterThan(0);
    // A likelihood ratio is 1 on average.
    expect(
      chance * Math.exp(oddsScore(true, chance, 2)) + (1 - chance) * Math.exp(oddsScore(false, chance, 2)),
    ).toBeCloseTo(1, 12);
  }
});
