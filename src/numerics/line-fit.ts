/** A straight line by least squares, with what it takes to say how sure it is. */
export interface LineFit {
  readonly slope: number;
  /** The value at the mean of x. */
  readonly level: number;
  readonly meanX: number;
  /** Standard error of the slope, widened for residuals that follow one another. */
  readonly slopeError: number;
  readonly residualDeviation: number;
  readonly count: number;
}

/**
 * Fits a straight line to y over x by least squares.
 *
 * For slow drifts measured by an instrument with lag: neighbouring residuals resemble each other, so the slope's
 * standard error is widened by √((1+ρ)/(1−ρ)) with the residuals' lag-1 correlation ρ ≥ 0.
 *
 * @param from first index; @param to index after the last
 * @returns undefined where there are fewer than three points or all x are equal
 * @example lineFit([0, 1, 2, 3], [1, 3, 5, 7])?.slope // 2
 */
export function lineFit(x: ArrayLike<number>, y: ArrayLike<number>, from = 0, to = x.length): LineFit | undefined {
  const count = to - from;
  if (count < 3) return undefined;
  let meanX = 0;
  let meanY = 0;
  for (let i = from; i < to; i += 1) {
    meanX += x[i];
    meanY += y[i];
  }
  meanX /= count;
  meanY /= count;
  let sumXX = 0;
  let sumXY = 0;
  for (let i = from; i < to; i += 1) {
    sumXX += (x[i] - meanX) ** 2;
    sumXY += (x[i] - meanX) * (y[i] - meanY);
  }
  if (sumXX === 0) return undefined;
  const slope = sumXY / sumXX;
  let squares = 0;
  let products = 0;
  let previous = 0;
  for (let i = from; i < to; i += 1) {
    const residual = y[i] - meanY - slope * (x[i] - meanX);
    squares += residual * residual;
    if (i > from) products += residual * previous;
    previous = residual;
  }
  const correlation = squares === 0 ? 0 : Math.min(0.95, Math.max(0, products / squares));
  const residualDeviation = Math.sqrt(squares / (count - 2));
  const slopeError = (residualDeviation / Math.sqrt(sumXX)) * Math.sqrt((1 + correlation) / (1 - correlation));
  return { slope, level: meanY, meanX, slopeError, residualDeviation, count };
}
