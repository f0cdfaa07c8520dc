/** Where an exponentially weighted moving average stands after each value, and how far chance alone takes it. */
export interface MovingAverage {
  readonly level: Float64Array;
  /** Standard deviation of the level if nothing changed. */
  readonly deviation: Float64Array;
}

/**
 * Exponentially weighted moving average: each value counts `weight`, and what was before counts the less the longer ago.
 *
 * @param values in the order of time, less what was expected of each, or as they are where `start` is their target
 * @param variances what chance alone makes of each value, in the square of its unit
 * @param weight of the newest value, above 0, up to 1
 * @param start the level before the first value
 *
 * Source: `nist-sematech-handbook`, 6.3.2.4. Accuracy: reproduces its example; the deviation grows to the one of its limits.
 *
 * @example [...movingAverage([1, 1], [4, 4], 0.5).level] // [0.5, 0.75]
 */
export function movingAverage(
  values: ArrayLike<number>,
  variances: ArrayLike<number>,
  weight: number,
  start = 0,
): MovingAverage {
  const level = new Float64Array(values.length);
  const deviation = new Float64Array(values.length);
  let [at, variance] = [start, 0];
  for (let index = 0; index < values.length; index += 1) {
    at = weight * values[index] + (1 - weight) * at;
    variance = weight ** 2 * variances[index] + (1 - weight) ** 2 * variance;
    level[index] = at;
    deviation[index] = Math.sqrt(variance);
  }
  return { level, deviation };
}
