import { betaShareBelow } from './beta-distribution.ts';

/**
 * Chance that of some trials at most so many succeed.
 *
 * @param successes whole; below 0 gives 0
 * @param trials 0 or more; a broken number stands between its neighbours
 * @param chance of each, 0 to 1
 *
 * Source: `dlmf`, 8.17.5. Accuracy: that of `betaShareBelow`.
 *
 * @example binomialShareUpTo(1, 2, 0.5) // 0.75
 */
export function binomialShareUpTo(successes: number, trials: number, chance: number): number {
  if (successes < 0) return 0;
  if (successes >= trials || chance === 0) return 1;
  return betaShareBelow(1 - chance, trials - successes, successes + 1);
}

/**
 * The fewest successes that are not exceeded with at least a chance.
 *
 * @param share from 0 to 1
 * @param trials 0 or more; a broken number stands between its neighbours
 * @param chance of each, 0 to 1
 *
 * @example binomialQuantile(0.5, 10, 0.5) // 5
 */
export function binomialQuantile(share: number, trials: number, chance: number): number {
  const holds = (successes: number): boolean =>
    successes >= trials || binomialShareUpTo(successes, trials, chance) >= share;
  // From where a normal distribution has it, in growing steps to either side, then by halves.
  const near = trials * chance + normalQuantile(share) * Math.sqrt(trials * chance * (1 - chance));
  let high = Math.floor(Math.min(trials, Math.max(0, near)));
  let step = 1;
  while (!holds(high)) {
    high += step;
    step *= 2;
  }
  let low = step > 1 ? high - step / 2 + 1 : high - 1;
  if (step === 1) {
    while (low >= 0 && holds(low)) {
      high = low;
      low -= step;
      step *= 2;
    }
    low += 1;
  }
  high = Math.min(high, Math.ceil(trials));
  low = Math.max(0, low);
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** A quantile of the normal distribution, to within 0.003: good enough to begin a search. `abramowitz-stegun`, 26.2.22. */
function normalQuantile(share: number): number {
  const t = Math.sqrt(-2 * Math.log(Math.max(1e-300, Math.min(share, 1 - share))));
  const quantile = t - (2.30753 + 0.27061 * t) / (1 + t * (0.99229 + 0.04481 * t));
  return share < 0.5 ? -quantile : quantile;
}
