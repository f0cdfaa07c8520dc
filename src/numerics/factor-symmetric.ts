/**
 * Factors a small symmetric positive definite matrix by Cholesky's method: its lower triangle becomes L of L Lᵀ.
 *
 * @param matrix row by row, n × n; what is above the diagonal is neither read nor changed
 * @returns false where the matrix is not positive definite; it then holds nothing of use
 *
 * @example
 * const matrix = Float64Array.of(4, 0, 2, 5);
 * factorSymmetric(matrix, 2);
 * [...matrix] // [2, 0, 1, 2]
 */
export function factorSymmetric(matrix: Float64Array, n: number): boolean {
  for (let row = 0; row < n; row += 1) {
    for (let column = 0; column <= row; column += 1) {
      let sum = matrix[row * n + column];
      for (let k = 0; k < column; k += 1) sum -= matrix[row * n + k] * matrix[column * n + k];
      if (row === column) {
        if (!(sum > 1e-12 * matrix[row * n + row]) || !(sum > 0)) return false;
        matrix[row * n + row] = Math.sqrt(sum);
      } else matrix[row * n + column] = sum / matrix[column * n + column];
    }
  }
  return true;
}
