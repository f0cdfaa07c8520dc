import { DryholdError } from '../errors.ts';

/** Two-sided 95 % quantile of the standard normal distribution. */
export const NORMAL_QUANTILE_95 = 1.959963984540054;

/** A share with its bounds, all ratios 0…1. */
export interface WilsonInterval {
  readonly low: number;
  readonly high: number;
}

/**
 * Wilson score interval of a share, without continuity correction.
 *
 * For rates with a small n: unlike the Wald interval it has a width at 0 of n and n of n, and stays inside 0…1.
 *
 * @param successes how many had the trait [count], 0…trials
 * @param trials how many were looked at [count], whole, 0 or more; 0 knows nothing and gives 0…1
 * @param normalQuantile two-sided quantile of the standard normal distribution, above 0
 * @returns bounds [ratio]
 * @throws DryholdError out-of-range
 *
 * Source: newcombe-1998, method 3. Accuracy: reproduces its rows to the four places printed.
 *
 * @example wilsonInterval(0, 20).high // 0.1611252
 */
export function wilsonInterval(successes: number, trials: number, normalQuantile = NORMAL_QUANTILE_95): WilsonInterval {
  if (!Number.isInteger(trials) || trials < 0) {
    throw new DryholdError('out-of-range', {
      quantity: 'trials',
      bound: 'a whole number, 0 or more',
      received: trials,
    });
  }
  if (!Number.isInteger(successes) || successes < 0 || successes > trials) {
    const bound = `a whole number, 0 to ${trials}`;
    throw new DryholdError('out-of-range', { quantity: 'successes', bound, received: successes });
  }
  if (!(normalQuantile > 0 && Number.isFinite(normalQuantile))) {
    const bound = 'above 0 and finite';
    throw new DryholdError('out-of-range', { quantity: 'normal quantile', bound, received: normalQuantile });
  }
  if (trials === 0) return { low: 0, high: 1 };
  const share = successes / trials;
  const squared = normalQuantile ** 2;
  const centre = share + squared / (2 * trials);
  const halfWidth = normalQuantile * Math.sqrt((share * (1 - share)) / trials + squared / (4 * trials ** 2));
  const divisor = 1 + squared / trials;
  return {
    low: successes === 0 ? 0 : (centre - halfWidth) / divisor,
    high: successes === trials ? 1 : (centre + halfWidth) / divisor,
  };
}
