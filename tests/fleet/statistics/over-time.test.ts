import { expect, test } from 'vitest';
import { cumulativeSum, oddsScore } from '../../../src/fleet/statistics/cumulative-sum.ts';
import { monthPoints, monthTallies } from '../../../src/fleet/statistics/month-chart.ts';
import { movingAverage } from '../../../src/fleet/statistics/moving-average.ts';
import { pChart } from '../../../src/fleet/statistics/p-chart.ts';
import { Random } from '../../../src/numerics/random.ts';
import { referenceRows } from '../../reference-rows.ts';

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

/** Chance of each count among jobs of which each has a chance of its own, by adding one job after the other. */
function countChances(chances: readonly number[]): number[] {
  let counts = [1];
  for (const chance of chances)
    counts = [...counts, 0].map((none, count) => none * (1 - chance) + (counts[count - 1] ?? 0) * chance);
  return counts;
}

test('limits of a period with an expectation are passed as rarely as meant, on few jobs and on many', () => {
  const random = new Random(9);
  const [passed, nearer]: [number[], number[]] = [[], []];
  for (let period = 0; period < 1000; period += 1) {
    const highest = random.uniform(0.05, 0.9);
    const isAlike = period % 2 === 0;
    const lowest = isAlike ? highest : 0.01;
    const chances = Array.from({ length: random.integer(5, 200) }, () => random.uniform(lowest, highest));
    const expectation = {
      found: chances.reduce((sum, chance) => sum + chance, 0),
      variance: chances.reduce((sum, chance) => sum + chance * (1 - chance), 0),
    };
    const jobs = chances.length;
    const [{ centre, low, high }] = pChart([{ found: 0, jobs, expectation }])?.points ?? [];
    expect(centre).toBeCloseTo(expectation.found / jobs, 12);
    const counts = countChances(chances);
    const beyond = (isBeyond: (count: number) => boolean) =>
      counts.reduce((sum, chance, count) => sum + (isBeyond(count) ? chance : 0), 0);
    const [least, most] = [Math.round(low * jobs), Math.round(high * jobs)];
    passed.push(
      beyond((count) => count < least),
      beyond((count) => count > most),
    );
    if (!isAlike) continue;
    // One count nearer would be passed too often.
    if (least > 0) nearer.push(beyond((count) => count <= least));
    if (most < jobs) nearer.push(beyond((count) => count >= most));
  }
  expect(Math.max(...passed)).toBeLessThan(0.0022);
  expect(Math.min(...nearer)).toBeGreaterThan(0.0022);
  expect(nearer.length).toBeGreaterThan(800);
});

test('a hard month of which much was expected is in, an easy one with as much found is out', () => {
  const of = (chance: number) => ({ found: 20 * chance, variance: 20 * chance * (1 - chance) });
  const hard = { found: 10, jobs: 20, expectation: of(0.5) };
  const easy = { found: 10, jobs: 20, expectation: of(0.1) };
  const chart = pChart([hard, easy, { found: 10, jobs: 20 }]);
  expect(chart?.points.map(({ isOut }) => isOut)).toEqual([false, true, false]);
  expect(chart?.points.map(({ centre }) => centre)).toEqual([0.5, 0.1, 0.5]);
});

test('what was expected for sure is its own limit', () => {
  for (const found of [0, 8]) {
    const chart = pChart([{ found, jobs: 8, expectation: { found, variance: 0 } }]);
    expect(chart?.points[0]).toEqual({
      share: found / 8,
      centre: found / 8,
      low: found / 8,
      high: found / 8,
      isOut: false,
    });
  }
});

test('months are those of the calendar; one of fewer than five jobs gets no verdict', () => {
  // 1970-01-31 four times, 1970-02-01 five times, 1972-02-29 once.
  const days = [30, 30, 30, 30, 31, 31, 31, 31, 31, 789];
  const months = monthPoints(monthTallies({ found: days.map(() => 1), chances: days.map(() => 0.05), days }));
  expect(months.map(({ month, from, end, isJudged, isOut }) => [month, from, end, isJudged, isOut])).toEqual([
    [0, 0, 4, false, false],
    [1, 4, 9, true, true],
    [25, 9, 10, false, false],
  ]);
  expect(months[0].share).toBeGreaterThan(months[0].high);
  expect(monthPoints(monthTallies({ found: [], chances: [], days: [] }))).toEqual([]);
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
