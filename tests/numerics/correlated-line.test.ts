import { describe, expect, test } from 'vitest';
import { correlatedLine } from '../../src/numerics/correlated-line.ts';
import { referenceRows } from '../reference-rows.ts';

const data = referenceRows('scipy-correlated-lines', 'data.csv');

describe('reproduces NumPy', () => {
  test.each(referenceRows('scipy-correlated-lines', 'lines.csv'))(
    'case $case, time constant $time_constant',
    ({ case: which, time_constant, noise_variance, slope, variance, log_likelihood }) => {
      const points = data.filter((row) => row.case === which);
      const n = points.length;
      const covariance = new Float64Array(n * n);
      // The upper triangle is not read.
      for (let row = 0; row < n; row += 1)
        for (let column = 0; column < n; column += 1)
          covariance[row * n + column] =
            column > row
              ? Number.NaN
              : Math.exp(-Math.abs(points[row].t - points[column].t) / time_constant) +
                (row === column ? noise_variance : 0);
      const line = correlatedLine(
        points.map(({ t }) => t),
        points.map(({ y }) => y),
        covariance,
      );
      expect(line?.slope).toBeCloseTo(slope, 10);
      expect((line?.variance ?? 0) / variance).toBeCloseTo(1, 9);
      expect(line?.logLikelihood).toBeCloseTo(log_likelihood, 8);
    },
  );
});

test('independent data of one variance give the textbook’s line', () => {
  const rows = referenceRows('nist-norris');
  const n = rows.length;
  const covariance = new Float64Array(n * n);
  for (let row = 0; row < n; row += 1) covariance[row * n + row] = 0.884796396144373 ** 2;
  const line = correlatedLine(
    rows.map(({ x }) => x),
    rows.map(({ y }) => y),
    covariance,
  );
  expect((line?.slope ?? 0) / 1.00211681802045).toBeCloseTo(1, 10);
  expect(Math.sqrt(line?.variance ?? 0) / 0.429796848199937e-3).toBeCloseTo(1, 9);
});

test('there is none where the covariance is none, or all times are the same', () => {
  expect(correlatedLine([0, 1], [0, 1], Float64Array.of(1, 0, 2, 1))).toBeUndefined();
  expect(correlatedLine([3, 3], [0, 1], Float64Array.of(1, 0, 0, 1))).toBeUndefined();
  expect(correlatedLine([1], [1], Float64Array.of(1))).toBeUndefined();
});
