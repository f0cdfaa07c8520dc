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
  const ones = new Float64Array(n);
  const line = new Float64Array(n);
  const data = new Float64Array(n);
  let logDeterminant = 0;
  // Cholesky's factor row by row, and with each row the three columns as they are once the correlation is taken out.
  let [aa, ab, bb, ay, by, yy] = [0, 0, 0, 0, 0, 0];
  for (let row = 0; row < n; row += 1) {
    const at = row * n;
    let [one, time, value] = [1, times[row] - middle, values[row]];
    for (let column = 0; column <= row; column += 1) {
      const of = column * n;
      let sum = covariance[at + column];
      for (let k = 0; k < column; k += 1) sum -= covariance[at + k] * covariance[of + k];
      if (column < row) {
        const factor = sum / covariance[of + column];
        covariance[at + column] = factor;
        one -= factor * ones[column];
        time -= factor * line[column];
        value -= factor * data[column];
        continue;
      }
      if (!(sum > 0)) return undefined;
      const root = Math.sqrt(sum);
      covariance[at + row] = root;
      logDeterminant += Math.log(sum);
      ones[row] = one / root;
      line[row] = time / root;
      data[row] = value / root;
    }
    aa += ones[row] * ones[row];
    ab += ones[row] * line[row];
    bb += line[row] * line[row];
    ay += ones[row] * data[row];
    by += line[row] * data[row];
    yy += data[row] * data[row];
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
