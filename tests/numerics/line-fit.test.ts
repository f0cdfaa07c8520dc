import { describe, expect, test } from 'vitest';
import { lineFit } from '../../src/numerics/line-fit.ts';
import { Random } from '../../src/numerics/random.ts';
import { referenceRows } from '../reference-rows.ts';

const rows = referenceRows('nist-norris');
const x = Object.freeze(rows.map((row) => row.x));
const y = Object.freeze(rows.map((row) => row.y));

describe('reproduces NIST StRD, Norris, certified values', () => {
  const fit = lineFit(x, y);
  test.each([
    ['slope', fit?.slope, 1.00211681802045],
    ['intercept', (fit?.level ?? 0) - (fit?.slope ?? 0) * (fit?.meanX ?? 0), -0.262323073774029],
    ['residual standard deviation', fit?.residualDeviation, 0.884796396144373],
  ] as const)('%s', (_, found, certified) => {
    expect(Math.abs((found ?? Number.NaN) / certified - 1)).toBeLessThan(1e-11);
  });

  test('the standard error of the slope, before it is widened for residuals that follow one another', () => {
    // Reversed order has the same residuals and the same lag-1 correlation; in a shuffle that alternates there is none.
    const order = [...x.keys()].sort((a, b) => residual(a) - residual(b));
    const zigzag = order.map((_, k) => order[k % 2 === 0 ? k / 2 : order.length - (k + 1) / 2]);
    const mixed = lineFit(
      zigzag.map((index) => x[index]),
      zigzag.map((index) => y[index]),
    );
    expect(Math.abs((mixed?.slopeError ?? Number.NaN) / 0.429796848199937e-3 - 1)).toBeLessThan(1e-11);
    expect(fit?.slopeError).toBeGreaterThanOrEqual(0.429796848199937e-3 * (1 - 1e-12));
  });

  function residual(index: number): number {
    return y[index] - (-0.262323073774029 + 1.00211681802045 * x[index]);
  }
});

test('a line is found exactly, with no error', () => {
  const fit = lineFit([0, 1, 2, 3], [1, 3, 5, 7]);
  expect(fit).toMatchObject({ slope: 2, level: 4, meanX: 1.5, slopeError: 0, residualDeviation: 0, count: 4 });
});

test('only the readings from and before the ends count', () => {
  expect(lineFit([0, 1, 2, 3, 4], [99, 3, 5, 7, 99], 1, 4)).toMatchObject({ slope: 2, count: 3 });
});

test('far from zero nothing is lost: seconds of a clock that began long ago', () => {
  const times = Array.from({ length: 100 }, (_, index) => 1.7e9 + index);
  expect(
    Math.abs(
      (lineFit(
        times,
        times.map((at) => 5 + 1e-3 * (at - 1.7e9)),
      )?.slope ?? 0) /
        1e-3 -
        1,
    ),
  ).toBeLessThan(1e-9);
});

test.each([
  ['two points', [0, 1], [1, 2]],
  ['none', [], []],
  ['all at one x', [3, 3, 3], [1, 2, 3]],
])('no line through %s', (_, xs, ys) => {
  expect(lineFit(xs, ys)).toBeUndefined();
});

describe('the interval holds what it promises', () => {
  /** Share of 400 noisy lines whose true slope lies within ±1.96 standard errors. */
  function coverage(correlation: number): number {
    const random = new Random(9);
    const times = Array.from({ length: 200 }, (_, index) => index);
    let held = 0;
    for (let round = 0; round < 400; round += 1) {
      let noise = 0;
      const values = times.map((at) => {
        noise = correlation * noise + random.normal(0, 1) * Math.sqrt(1 - correlation ** 2);
        return 0.02 * at + noise;
      });
      const fit = lineFit(times, values);
      if (fit !== undefined && Math.abs(fit.slope - 0.02) <= 1.96 * fit.slopeError) held += 1;
    }
    return held / 400;
  }

  // Binomial standard deviation at 95 % of 400: 1.1 %.
  test('independent noise: 95 %', () => {
    expect(coverage(0)).toBeGreaterThan(0.92);
    expect(coverage(0)).toBeLessThan(0.98);
  });

  test('noise that follows itself, lag-1 correlation 0.6: still nearly so', () => {
    expect(coverage(0.6)).toBeGreaterThan(0.9);
  });
});
