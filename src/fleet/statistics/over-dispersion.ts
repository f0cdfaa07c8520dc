import { quantile } from '../../numerics/quantile.ts';

/** How much more some shares differ than chance alone makes them. */
export interface OverDispersion {
  /** Mean square of the winsorised standard scores; about 1 where only chance is at work. */
  readonly ratio: number;
  /** Variance between units that chance does not explain, in the square of what the scores' errors are in; 0 for none. */
  readonly variance: number;
}

/** Scores beyond these quantiles count as the quantile: what is to be found must not widen the limits by which it is found. */
const winsorised = 0.1;

/**
 * How much more units differ than chance alone makes them: the multiplicative ratio, and the additive variance.
 *
 * @param scores standard score of each unit, its distance from the target over its standard error
 * @param errors standard errors, above 0
 * @param cut share of the scores at each end that is drawn in; 0 for none
 *
 * Source: `spiegelhalter-2005`; `dersimonian-laird-1986`.
 *
 * @example overDispersion([3, -3, 3, -3], [1, 1, 1, 1]) // { ratio: 9, variance: 11 }
 */
export function overDispersion(scores: ArrayLike<number>, errors: ArrayLike<number>, cut = winsorised): OverDispersion {
  const count = scores.length;
  if (count < 2) return { ratio: 1, variance: 0 };
  const [low, high] = [quantile(scores, cut), quantile(scores, 1 - cut)];
  let [squares, weights, weightsSquared] = [0, 0, 0];
  for (let unit = 0; unit < count; unit += 1) {
    squares += Math.min(high, Math.max(low, scores[unit])) ** 2;
    const weight = 1 / errors[unit] ** 2;
    weights += weight;
    weightsSquared += weight ** 2;
  }
  const variance = (squares - (count - 1)) / (weights - weightsSquared / weights);
  return { ratio: squares / count, variance: Math.max(0, variance) };
}
