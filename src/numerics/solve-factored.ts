/**
 * Solves a symmetric positive definite system whose matrix `factorSymmetric` has factored.
 *
 * @param factor as `factorSymmetric` leaves it
 * @param right n numbers; overwritten by the solution
 *
 * @example
 * const right = Float64Array.of(2, 1);
 * solveFactored(Float64Array.of(2, 0, 1, Math.SQRT2), right);
 * [...right] // [0.5, 0]
 */
export function solveFactored(factor: Float64Array, right: Float64Array): void {
  const n = right.length;
  for (let row = 0; row < n; row += 1) {
    for (let k = 0; k < row; k += 1) right[row] -= factor[row * n + k] * right[k];
    right[row] /= factor[row * n + row];
  }
  for (let row = n - 1; row >= 0; row -= 1) {
    for (let k = row + 1; k < n; k += 1) right[row] -= factor[k * n + row] * right[k];
    right[row] /= factor[row * n + row];
  }
}
