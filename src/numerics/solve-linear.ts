/**
 * Solves a small system of linear equations by Gaussian elimination with row pivoting.
 *
 * @param matrix row by row, n × n; overwritten
 * @param right n numbers; overwritten by the solution
 * @returns false where the matrix is singular or not finite; `right` then holds nothing of use
 *
 * @example
 * const right = Float64Array.of(4, 5);
 * solveLinear(Float64Array.of(0, 2, 3, 1), right);
 * [...right] // [1, 2]
 */
export function solveLinear(matrix: Float64Array, right: Float64Array): boolean {
  const n = right.length;
  for (let column = 0; column < n; column += 1) {
    let pivot = column;
    for (let row = column + 1; row < n; row += 1) {
      if (Math.abs(matrix[row * n + column]) > Math.abs(matrix[pivot * n + column])) pivot = row;
    }
    if (!(Math.abs(matrix[pivot * n + column]) > 0)) return false;
    if (pivot !== column) {
      for (let k = column; k < n; k += 1) {
        [matrix[pivot * n + k], matrix[column * n + k]] = [matrix[column * n + k], matrix[pivot * n + k]];
      }
      [right[pivot], right[column]] = [right[column], right[pivot]];
    }
    for (let row = column + 1; row < n; row += 1) {
      const factor = matrix[row * n + column] / matrix[column * n + column];
      if (factor === 0) continue;
      for (let k = column; k < n; k += 1) matrix[row * n + k] -= factor * matrix[column * n + k];
      right[row] -= factor * right[column];
    }
  }
  for (let row = n - 1; row >= 0; row -= 1) {
    for (let k = row + 1; k < n; k += 1) right[row] -= matrix[row * n + k] * right[k];
    right[row] /= matrix[row * n + row];
    if (!Number.isFinite(right[row])) return false;
  }
  return true;
}
