import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { solveSymmetric } from '../../src/numerics/solve-symmetric.ts';

function solved(matrix: number[], right: number[]): number[] | undefined {
  const solution = Float64Array.from(right);
  return solveSymmetric(Float64Array.from(matrix), solution) ? [...solution] : undefined;
}

test('two equations by hand: 4x + 2y = 2, 2x + 3y = 1 gives x = 1/2, y = 0', () => {
  const [x, y] = solved([4, 2, 2, 3], [2, 1]) ?? [];
  expect(x).toBeCloseTo(0.5, 14);
  expect(y).toBeCloseTo(0, 14);
});

test('the Hilbert matrix of order 4: its inverse is known in whole numbers', () => {
  // Inverse of H4, first column: 16, −120, 240, −140 (closed form of the inverse, from memory).
  const hilbert = Array.from({ length: 16 }, (_, index) => 1 / (Math.floor(index / 4) + (index % 4) + 1));
  const column = solved(hilbert, [1, 0, 0, 0]) ?? [];
  for (const [index, whole] of [16, -120, 240, -140].entries()) expect(column[index]).toBeCloseTo(whole, 8);
});

describe('no solution where the matrix is not positive definite', () => {
  test.each([
    ['two equal rows', [1, 1, 1, 1]],
    ['a negative diagonal', [-1, 0, 0, 1]],
    ['indefinite', [1, 2, 2, 1]],
    ['nothing but 0', [0, 0, 0, 0]],
    ['not a number', [Number.NaN, 0, 0, 1]],
  ])('%s', (_, matrix) => {
    expect(solved(matrix, [1, 1])).toBeUndefined();
  });
});

test('what comes out, put back in, gives the right side', () => {
  const size = 5;
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: size * size, maxLength: size * size }),
      fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: size, maxLength: size }),
      (b, right) => {
        // B·Bᵀ + I is symmetric and positive definite.
        const at = (row: number, column: number) => b[row * size + column];
        const matrix = Array.from({ length: size * size }, (_, index) => {
          const [row, column] = [Math.floor(index / size), index % size];
          let sum = row === column ? 1 : 0;
          for (let k = 0; k < size; k += 1) sum += at(row, k) * at(column, k);
          return sum;
        });
        const solution = solved(matrix, right) ?? [];
        for (let row = 0; row < size; row += 1) {
          let sum = 0;
          for (let column = 0; column < size; column += 1) sum += matrix[row * size + column] * solution[column];
          expect(Math.abs(sum - right[row])).toBeLessThan(1e-9);
        }
      },
    ),
    { seed: 2 },
  );
});
