import { expect, test } from 'vitest';
import { fitLogistic } from '../../src/numerics/penalised-logistic.ts';
import { Random } from '../../src/numerics/random.ts';
import { referenceRows } from '../reference-rows.ts';

test('reproduces the killed beetles, Bliss 1935', () => {
  const rows = referenceRows('bliss-1935');
  const fit = fitLogistic(
    {
      width: 2,
      columns: Int32Array.from(rows.flatMap(() => [0, 1])),
      values: Float64Array.from(rows.flatMap((row) => [1, row.log_dose])),
      successes: Float64Array.from(rows, (row) => row.killed),
      trials: Float64Array.from(rows, (row) => row.beetles),
    },
    new Float64Array(2),
  );
  expect(fit?.isConverged).toBe(true);
  expect(fit?.coefficients[0]).toBeCloseTo(-60.717, 2);
  expect(fit?.coefficients[1]).toBeCloseTo(34.27, 3);
  expect(Math.sqrt(fit?.covariance[0] ?? 0)).toBeCloseTo(5.181, 3);
  expect(Math.sqrt(fit?.covariance[3] ?? 0)).toBeCloseTo(2.912, 3);
});

/** Two groups of trials, the second with a column of its own. */
const twoGroups = (one: [number, number], two: [number, number], penalty: number) =>
  fitLogistic(
    {
      width: 2,
      columns: Int32Array.of(0, -1, 0, 1),
      successes: Float64Array.of(one[0], two[0]),
      trials: Float64Array.of(one[1], two[1]),
    },
    Float64Array.of(0, penalty),
  );

test('of a table of two by two the coefficient is the logarithm of its odds ratio, and its error the one of Woolf', () => {
  const fit = twoGroups([12, 60], [25, 55], 0);
  expect(fit?.coefficients[1]).toBeCloseTo(Math.log(25 / 30 / (12 / 48)), 9);
  expect(Math.sqrt(fit?.covariance[3] ?? 0)).toBeCloseTo(Math.sqrt(1 / 12 + 1 / 48 + 1 / 25 + 1 / 30), 9);
});

test('a penalty draws to 0, and keeps what would run away', () => {
  expect(Math.abs(twoGroups([12, 60], [25, 55], 10)?.coefficients[1] ?? 9)).toBeLessThan(Math.log(25 / 30 / (12 / 48)));
  const all = twoGroups([12, 60], [9, 9], 1);
  expect(all?.isConverged).toBe(true);
  expect(all?.coefficients[1]).toBeGreaterThan(1);
  expect(all?.coefficients[1]).toBeLessThan(5);
});

test('where it stands the penalised likelihood has no slope', () => {
  const random = new Random(5);
  const rows = 300;
  const columns = Int32Array.from({ length: rows * 3 }, (_, at) =>
    at % 3 === 0 ? 0 : 1 + Math.floor(random.uniform(0, 7)),
  );
  const trials = Float64Array.from({ length: rows }, () => 1 + Math.floor(random.uniform(0, 20)));
  const successes = trials.map((each) => Math.floor(random.uniform(0, each + 0.999)));
  const offsets = trials.map(() => random.normal(0, 1));
  const penalties = Float64Array.of(0, 1, 2, 3, 1, 1, 1, 1);
  const fit = fitLogistic({ width: 3, columns, trials, successes, offsets }, penalties);
  for (const [column, coefficient] of fit?.coefficients.entries() ?? []) {
    let slope = -penalties[column] * coefficient;
    for (let at = 0; at < columns.length; at += 1) {
      const row = Math.floor(at / 3);
      if (columns[at] === column) slope += successes[row] - trials[row] * (fit?.chances[row] ?? Number.NaN);
    }
    expect(slope).toBeCloseTo(0, 6);
  }
});

test('columns that cannot be told apart have no fit', () => {
  const rows = { width: 2, columns: Int32Array.of(0, 1), successes: Float64Array.of(3), trials: Float64Array.of(9) };
  expect(fitLogistic(rows, new Float64Array(2))).toBeUndefined();
});
