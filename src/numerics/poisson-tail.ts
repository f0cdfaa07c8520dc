import { DryholdError } from '../errors.ts';

/**
 * Chance of a count as large, or larger, where so many are to be expected and each comes by itself.
 *
 * @param count whole, 0 or more
 * @param mean 0 or more
 * @returns 0…1
 * @throws DryholdError `out-of-range`
 *
 * Source: sum of the Poisson distribution. Accuracy: 1e-12 up to a mean of 700; above it the terms are too small for doubles, and it is refused.
 *
 * @example poissonTail(3, 1) // 0.0803014
 */
export function poissonTail(count: number, mean: number): number {
  if (!(mean >= 0 && mean <= 700))
    throw new DryholdError('out-of-range', { quantity: 'mean', bound: '0 to 700', received: mean });
  if (!Number.isInteger(count) || count < 0)
    throw new DryholdError('out-of-range', { quantity: 'count', bound: 'a whole number, 0 or more', received: count });
  let [term, below] = [Math.exp(-mean), 0];
  for (let at = 0; at < count; at += 1) {
    below += term;
    term *= mean / (at + 1);
  }
  if (below < 0.5) return Math.max(0, 1 - below);
  // The tail itself, so that small chances keep their digits.
  let tail = 0;
  for (let at = count; term > 1e-18 * tail || at < mean; at += 1) {
    tail += term;
    term *= mean / (at + 1);
  }
  return tail;
}
