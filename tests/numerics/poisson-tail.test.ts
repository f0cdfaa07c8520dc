import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { poissonTail } from '../../src/numerics/poisson-tail.ts';
import { referenceRows } from '../reference-rows.ts';

const rows = referenceRows('poisson-tails');

describe('poissonTail', () => {
  test('has the rows to be held against', () => {
    expect(rows).toHaveLength(17);
  });

  test.each(rows)('reproduces $count or more of $mean, poisson-tails', (row) => {
    const chance = poissonTail(row.count, row.mean);
    expect(Math.abs(chance - row.chance)).toBeLessThanOrEqual(row.tolerance_ratio * row.chance);
  });

  test('falls with the count by the chance of that very count, and rises with the mean', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 40 }), fc.double({ min: 0.01, max: 30, noNaN: true }), (count, mean) => {
        let factorial = 1;
        for (let at = 2; at <= count; at++) factorial *= at;
        const exactly = (Math.exp(-mean) * mean ** count) / factorial;
        const drop = poissonTail(count, mean) - poissonTail(count + 1, mean);
        expect(Math.abs(drop - exactly)).toBeLessThanOrEqual(1e-13);
        expect(poissonTail(count + 1, mean * 1.1)).toBeGreaterThan(poissonTail(count + 1, mean));
      }),
      { seed: 1, numRuns: 200 },
    );
  });

  test.each([
    [0.5, 1, 'count out of range: must be a whole number, 0 or more, received 0.5'],
    [-1, 1, 'count out of range: must be a whole number, 0 or more, received -1'],
    [Number.NaN, 1, 'count out of range: must be a whole number, 0 or more, received NaN'],
    [1, -0.1, 'mean out of range: must be 0 to 700, received -0.1'],
    [1, 700.1, 'mean out of range: must be 0 to 700, received 700.1'],
    [1, Number.NaN, 'mean out of range: must be 0 to 700, received NaN'],
  ])('refuses %d of %d', (count, mean, text) => {
    expect(() => poissonTail(count, mean)).toThrow(text);
  });
});
