import { factorSymmetric } from './factor-symmetric.ts';

/**
 * Solves a small symmetric positive definite system by Cholesky's method.
 *
 * @param matrix row by row, n × n; overwritten
 * @param right n numbers; overwritten by the solution
 * @returns false where the matrix is not positive definite; `right` then holds nothing of use
 *
 * @example
 * const right = Float64Array.of(2, 1);
 * solveSymmetric(Float64Array.of(4, 2, 2, 3), right);
 * [...right] // [0.5, 0]
 */
export function solveSymmetric(matrix: Float64Array, right: Float64Array): boolean {
  const n = right.length;
  if (!factorSymmetric(matrix, n)) return false;
  for (let row = 0; row < n; row += 1) {
    for (let k = 0; k < row; k += 1) right[row] -= matrix[row * n + k] * right[k];
    right[row] /= matrix[row * n + row];
  }
  for (let row = n - 1; row >= 0; row -= 1) {
    for (let k = row + 1; k < n; k += 1) right[row] -= matrix[k * n + row] * right[k];
    right[row] /= matrix[row * n + row];
  }
  return true;
}
