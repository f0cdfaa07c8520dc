import { factorSymmetric } from './factor-symmetric.ts';

/**
 * Inverts a small symmetric positive definite matrix by Cholesky's method.
 *
 * @param matrix row by row, n × n; overwritten by the inverse
 * @returns false where the matrix is not positive definite; it then holds nothing of use
 *
 * @example
 * const matrix = Float64Array.of(4, 2, 2, 3);
 * invertSymmetric(matrix);
 * [...matrix] // [0.375, -0.25, -0.25, 0.5]
 */
export function invertSymmetric(matrix: Float64Array): boolean {
  const n = Math.round(Math.sqrt(matrix.length));
  if (!factorSymmetric(matrix, n)) return false;
  // L becomes its own inverse, column by column.
  for (let column = 0; column < n; column += 1) {
    matrix[column * n + column] = 1 / matrix[column * n + column];
    for (let row = column + 1; row < n; row += 1) {
      let sum = 0;
      for (let k = column; k < row; k += 1) sum -= matrix[row * n + k] * matrix[k * n + column];
      matrix[row * n + column] = sum / matrix[row * n + row];
    }
  }
  // The inverse is the product of its transpose and itself; each entry needs only what lies below it.
  for (let row = 0; row < n; row += 1)
    for (let column = 0; column <= row; column += 1) {
      let sum = 0;
      for (let k = row; k < n; k += 1) sum += matrix[k * n + row] * matrix[k * n + column];
      matrix[row * n + column] = sum;
      matrix[column * n + row] = sum;
    }
  return true;
}
