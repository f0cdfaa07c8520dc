import { describe, expect, test } from 'vitest';
import { saturatingFit } from '../../src/numerics/saturating-fit.ts';
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

describe.each(sets)('reproduces NIST StRD, $name, certified values', ({ key, startRates, certified }) => {
  const rows = referenceRows(key);
  const x = Object.freeze(rows.map((row) => row.x));
  const y = Object.freeze(rows.map((row) => row.y));
  // The starts of the data set; that of b1 is not wanted, since it is solved for at each b2.
  test.each(startRates)('from its start b2 = %d', (startRate) => {
    const fit = saturatingFit(x, y, { startRate });
    for (const [name, value] of Object.entries(certified)) {
      const found = fit?.[name as keyof typeof certified] ?? Number.NaN;
      // Measured: 3e-9 at worst, in the rate; the errors of the data set have eleven digits.
      expect([name, Math.abs(found / value - 1) < 1e-8]).toEqual([name, true]);
    }
  });
});

test('a level and a slope beside it, with weights, are found exactly', () => {
  const random = new Random(4);
  const x = Array.from({ length: 60 }, (_, i) => 5 * i + random.uniform(0, 3));
  const y = x.map((at) => 40 + 0.02 * at + 30 * (1 - Math.exp(-at / 80)));
  const fit = saturatingFit(x, y, {
    beside: [x.map(() => 1), x],
    weights: x.map(() => random.uniform(0.5, 2)),
    startRate: 0.1,
  });
  expect(fit?.rate).toBeCloseTo(1 / 80, 8);
  expect(fit?.amplitude).toBeCloseTo(30, 5);
  expect(fit?.beside[0]).toBeCloseTo(40, 6);
  expect(fit?.beside[1]).toBeCloseTo(0.02, 8);
});

test('a straight line has no rate', () => {
  const x = [1, 2, 3, 4, 5, 6];
  const fit = saturatingFit(
    x,
    x.map((at) => 2 * at),
    { startRate: 0.1 },
  );
  expect(fit === undefined || fit.rate < 1e-6).toBe(true);
});
