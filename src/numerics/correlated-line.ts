import { Scratch } from './scratch.ts';

const scratch = { ones: new Scratch(), line: new Scratch(), data: new Scratch() };

/** A straight line through correlated data. */
export interface CorrelatedLine {
  readonly slope: number;
  /** Variance of the slope. */
  readonly variance: number;
  /** Logarithm of how likely the data are, the line itself left open (restricted likelihood), up to a constant. */
  readonly logLikelihood: number;
}

/**
 * The best straight line through data with a known covariance: generalised least squares.
 *
 * @param times n numbers, at least two of them different; @param values n numbers
 * @param covariance of the values, row by row, n × n, of which the lower triangle is read; overwritten
 * @returns undefined where the covariance is not positive definite
 *
 * Source: `patterson-thompson-1971` for the restricted likelihood.
 *
 * @example
 * correlatedLine([0, 1, 2], [0, 1, 2], Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1))?.variance // 0.5
 */
export function correlatedLine(
  times: ArrayLike<number>,
  values: ArrayLike<number>,
  covariance: Float64Array,
): CorrelatedLine | undefined {
  const n = times.length;
  let middle = 0;
  for (let row = 0; row < n; row += 1) middle += times[row] / n;
  const ones = scratch.ones.take(n);
  const line = scratch.line.take(n);
  const data = scratch.data.take(n);
  for (let row = 0; row < n; row += 1) {
    ones[row] = 1;
    line[row] = times[row] - middle;
    data[row] = values[row];
  }
  let logDeterminant = 0;
  let aa = 0;
  let ab = 0;
  let bb = 0;
  let ay = 0;
  let by = 0;
  let yy = 0;
  // Cholesky's factor column by column, and with each the correlation taken out of ones, times and values.
  for (let column = 0; column < n; column += 1) {
    subtractEarlier(covariance, n, column);
    const square = covariance[column * n + column];
    if (!(square > 0)) return undefined;
    const root = Math.sqrt(square);
    logDeterminant += Math.log(square);
    const one = ones[column] / root;
    const time = line[column] / root;
    const value = data[column] / root;
    aa += one * one;
    ab += one * time;
    bb += time * time;
    ay += one * value;
    by += time * value;
    yy += value * value;
    for (let row = column + 1; row < n; row += 1) {
      const factor = covariance[row * n + column] / root;
      covariance[row * n + column] = factor;
      ones[row] -= factor * one;
      line[row] -= factor * time;
      data[row] -= factor * value;
    }
  }
  const determinant = aa * bb - ab * ab;
  if (!(determinant > 0)) return undefined;
  const slope = (aa * by - ab * ay) / determinant;
  const level = (bb * ay - ab * by) / determinant;
  const misfit = Math.max(0, yy - level * ay - slope * by);
  return {
    slope,
    variance: aa / determinant,
    logLikelihood: -0.5 * (logDeterminant + Math.log(determinant) + misfit),
  };
}

/** Takes from a column of the matrix, from the diagonal down, what the columns of its factor before it say of it. */
function subtractEarlier(matrix: Float64Array, n: number, column: number): void {
  const of = column * n;
  let row = column;
  // Four rows at a time, whose sums do not wait for each other; then what is left of them.
  for (; row + 3 < n; row += 4) {
    const atA = row * n;
    const atB = atA + n;
    const atC = atB + n;
    const atD = atC + n;
    let a = matrix[atA + column];
    let b = matrix[atB + column];
    let c = matrix[atC + column];
    let d = matrix[atD + column];
    for (let k = 0; k < column; k += 1) {
      const factor = matrix[of + k];
      a -= matrix[atA + k] * factor;
      b -= matrix[atB + k] * factor;
      c -= matrix[atC + k] * factor;
      d -= matrix[atD + k] * factor;
    }
    matrix[atA + column] = a;
    matrix[atB + column] = b;
    matrix[atC + column] = c;
    matrix[atD + column] = d;
  }
  for (; row < n; row += 1) {
    const at = row * n;
    let sum = matrix[at + column];
    for (let k = 0; k < column; k += 1) sum -= matrix[at + k] * matrix[of + k];
    matrix[at + column] = sum;
  }
}
