import { bracketedRoot } from './bracketed-root.ts';
import { type NormalPart, normalShareBelow } from './normal-distribution.ts';

/** Beyond so many deviations of every part there is nothing. */
const reach = 8;

/**
 * Quantile of a mixture of normal distributions.
 *
 * @param parts at least one; their weights need not add up to 1
 * @param share of the mixture that lies below, above 0 and below 1
 *
 * @example
 * mixtureQuantile([{ weight: 1, mean: 2, deviation: 3 }], 0.975) // 7.879887
 */
export function mixtureQuantile(parts: readonly NormalPart[], share: number): number {
  const total = parts.reduce((sum, { weight }) => sum + weight, 0);
  const below = (value: number) => {
    let sum = 0;
    for (const { weight, mean, deviation } of parts) sum += weight * normalShareBelow((value - mean) / deviation);
    return sum;
  };
  const low = Math.min(...parts.map(({ mean, deviation }) => mean - reach * deviation));
  const high = Math.max(...parts.map(({ mean, deviation }) => mean + reach * deviation));
  // Counted from the low end, so that the root is found to a share of the width and not of its own size.
  const offset = bracketedRoot((from) => below(low + from) / total - share, 0, high - low, 1e-6);
  return low + offset;
}
