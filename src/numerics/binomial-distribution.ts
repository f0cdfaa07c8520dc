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
  let [low, high] = [0, trials];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (binomialShareUpTo(middle, trials, chance) >= share) high = middle;
    else low = middle + 1;
  }
  return low;
}
