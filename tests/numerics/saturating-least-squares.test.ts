import { describe, expect, test } from 'vitest';
import { lineMinimum } from '../../src/numerics/line-minimum.ts';
import { SaturatingLeastSquares } from '../../src/numerics/saturating-least-squares.ts';
import { Random } from '../../src/numerics/random.ts';
import { referenceRows } from '../reference-rows.ts';

const sets = [
  {
    name: 'Misra1a',
    key: 'nist-misra1a',
    startRates: [0.0001, 0.0005],
    certified: {
      amplitude: 2.3894212918e2,
      rate: 5.5015643181e-4,
      misfit: 1.2455138894e-1,
      residualDeviation: 1.018787633e-1,
      amplitudeError: 2.7070075241,
      rateError: 7.2668688436e-6,
    },
  },
  {
    name: 'BoxBOD',
    key: 'nist-boxbod',
    startRates: [1, 0.75],
    certified: {
      amplitude: 2.1380940889e2,
      rate: 5.4723748542e-1,
      misfit: 1.1680088766e3,
      residualDeviation: 1.7088072423e1,
      amplitudeError: 1.2354515176e1,
      rateError: 1.0455993237e-1,
    },
  },
] as const;

/** The fit from a start of its rate, with the standard errors that the data sets certify. */
function fitted(x: readonly number[], y: readonly number[], startRate: number) {
  const curve = new SaturatingLeastSquares(x, y, []);
  const best = lineMinimum(
    (logRate) => (curve.solve(Math.exp(logRate)) ? curve.misfit : Number.POSITIVE_INFINITY),
    Math.log(startRate),
    0.5,
  );
  const rate = Math.exp(best?.at ?? Number.NaN);
  curve.solve(rate);
  const amplitude = curve.coefficients[0];
  const residualDeviation = Math.sqrt(curve.misfit / (x.length - 2));
  // How the curve changes with its rate, as a column beside: its coefficient is a change of the rate.
  const change = x.map((at) => amplitude * at * Math.exp(-rate * at));
  const errors = new SaturatingLeastSquares(x, y, [change]);
  errors.solve(rate);
  return {
    amplitude,
    rate,
    misfit: curve.misfit,
    residualDeviation,
    amplitudeError: residualDeviation * Math.sqrt(errors.variance([0, 1])),
    rateError: residualDeviation * Math.sqrt(errors.variance([1, 0])),
  };
}

describe.each(sets)('reproduces NIST StRD, $name, certified values', ({ key, startRates, certified }) => {
  const rows = referenceRows(key);
  const x = Object.freeze(rows.map((row) => row.x));
  const y = Object.freeze(rows.map((row) => row.y));
  // The starts of the data set; that of b1 is not wanted, since it is solved for at each b2.
  test.each(startRates)('from its start b2 = %d', (startRate) => {
    const fit = fitted(x, y, startRate);
    for (const [name, value] of Object.entries(certified)) {
      // Measured: 3e-9 at worst, in the rate; the values of the data set have eleven digits.
      const found = fit[name as keyof typeof certified];
      expect([name, Math.abs(found / value - 1) < 1e-8]).toEqual([name, true]);
    }
  });
});

test('a level and a slope beside it, with weights, are found exactly', () => {
  const random = new Random(4);
  const x = Array.from({ length: 60 }, (_, i) => 5 * i + random.uniform(0, 3));
  const y = x.map((at) => 40 + 0.02 * at + 30 * (1 - Math.exp(-at / 80)));
  const weights = x.map(() => random.uniform(0.5, 2));
  const curve = new SaturatingLeastSquares(x, y, [x.map(() => 1), x], weights);
  expect(curve.solve(1 / 80)).toBe(true);
  expect(curve.misfit).toBeLessThan(1e-20);
  const [level, slope, amplitude] = curve.coefficients;
  expect(level).toBeCloseTo(40, 9);
  expect(slope).toBeCloseTo(0.02, 11);
  expect(amplitude).toBeCloseTo(30, 9);
});

test('columns that tell nothing apart have no solution', () => {
  const curve = new SaturatingLeastSquares(
    [1, 2, 3],
    [1, 2, 3],
    [new Float64Array(3).fill(1), new Float64Array(3).fill(2)],
  );
  expect(curve.solve(1)).toBe(false);
  expect(curve.misfit).toBe(Number.POSITIVE_INFINITY);
});
