import { factorSymmetric } from './factor-symmetric.ts';
import { solveFactored } from './solve-factored.ts';

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
  if (!factorSymmetric(matrix, right.length)) return false;
  solveFactored(matrix, right);
  return true;
}
