import { expect, test } from 'vitest';
import { mixtureQuantile } from '../../src/numerics/mixture-quantile.ts';
import { normalShareBelow } from '../../src/numerics/normal-distribution.ts';
import { referenceRows } from '../reference-rows.ts';

test.each(referenceRows('scipy-correlated-lines', 'normal.csv'))('below $z lies $share, as SciPy has it', (row) => {
  expect(Math.abs(normalShareBelow(row.z) - row.share)).toBeLessThan(7.5e-8);
});

test.each(referenceRows('scipy-correlated-lines', 'mixtures.csv'))(
  'quantile $share of $weight_a × N($mean_a, $deviation_a) + $weight_b × N($mean_b, $deviation_b), as SciPy has it',
  ({ weight_a, mean_a, deviation_a, weight_b, mean_b, deviation_b, share, quantile }) => {
    const found = mixtureQuantile(
      [
        { weight: weight_a, mean: mean_a, deviation: deviation_a },
        { weight: weight_b, mean: mean_b, deviation: deviation_b },
      ],
      share,
    );
    expect(Math.abs(found - quantile)).toBeLessThan(1e-4 * Math.max(deviation_a, deviation_b));
  },
);

test('parts of no weight count for nothing, and a shift moves every quantile by as much', () => {
  const parts = [
    { weight: 2, mean: 1, deviation: 0.5 },
    { weight: 0, mean: 1, deviation: 0.1 },
  ];
  expect(mixtureQuantile(parts, 0.975)).toBeCloseTo(mixtureQuantile(parts.slice(0, 1), 0.975), 6);
  const moved = parts.map((part) => ({ ...part, mean: part.mean + 1000 }));
  expect(mixtureQuantile(moved, 0.1) - mixtureQuantile(parts, 0.1)).toBeCloseTo(1000, 5);
});
