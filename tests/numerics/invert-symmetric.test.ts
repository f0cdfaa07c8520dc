import { expect, test } from 'vitest';
import { invertSymmetric } from '../../src/numerics/invert-symmetric.ts';
import { Random } from '../../src/numerics/random.ts';

test('a matrix times its inverse is 1', () => {
  const n = 40;
  const random = new Random(7);
  const root = Float64Array.from({ length: n * n }, () => random.normal());
  const matrix = new Float64Array(n * n);
  for (let row = 0; row < n; row += 1)
    for (let column = 0; column < n; column += 1)
      for (let k = 0; k < n; k += 1) matrix[row * n + column] += root[row * n + k] * root[column * n + k];
  const inverse = matrix.slice();
  expect(invertSymmetric(inverse)).toBe(true);
  for (let row = 0; row < n; row += 1)
    for (let column = 0; column < n; column += 1) {
      let sum = 0;
      for (let k = 0; k < n; k += 1) sum += matrix[row * n + k] * inverse[k * n + column];
      expect(sum).toBeCloseTo(row === column ? 1 : 0, 6);
    }
});

test.each([[Float64Array.of(1, 2, 2, 1)], [Float64Array.of(0, 0, 0, 1)], [Float64Array.of(1, 1, 1, 1)]])(
  'a matrix that is not positive definite has none: %s',
  (matrix) => {
    expect(invertSymmetric(matrix)).toBe(false);
  },
);
