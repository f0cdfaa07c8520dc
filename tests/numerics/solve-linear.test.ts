import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { solveLinear } from '../../src/numerics/solve-linear.ts';

describe('solveLinear', () => {
  test('finds what the right side was made from', () => {
    const numbers = fc.double({ min: -10, max: 10, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(numbers, { minLength: 9, maxLength: 9 }),
        fc.array(numbers, { minLength: 3, maxLength: 3 }),
        (entries, wanted) => {
          // A heavy diagonal keeps the system far from singular.
          const matrix = Float64Array.from(entries, (entry, k) =>
            k % 4 === 0 ? entry + 50 * Math.sign(entry || 1) : entry,
          );
          const right = Float64Array.from([0, 1, 2], (row) =>
            wanted.reduce((sum, x, k) => sum + matrix[row * 3 + k] * x, 0),
          );
          expect(solveLinear(matrix, right)).toBe(true);
          for (let k = 0; k < 3; k += 1) expect(right[k]).toBeCloseTo(wanted[k], 9);
        },
      ),
      { seed: 11 },
    );
  });

  test('exchanges rows where the diagonal is empty', () => {
    const right = Float64Array.of(4, 5);
    expect(solveLinear(Float64Array.of(0, 2, 3, 1), right)).toBe(true);
    expect([...right]).toEqual([1, 2]);
  });

  test('says no where there is no one solution', () => {
    expect(solveLinear(Float64Array.of(1, 2, 2, 4), Float64Array.of(1, 2))).toBe(false);
    expect(solveLinear(Float64Array.of(0, 0, 0, 0), Float64Array.of(0, 0))).toBe(false);
    expect(solveLinear(Float64Array.of(1, Number.NaN, 2, 4), Float64Array.of(1, 2))).toBe(false);
  });
});
