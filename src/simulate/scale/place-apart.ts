import type { Random } from '../../numerics/random.ts';

/** From, to [s]. */
export type Span = readonly [number, number];

/**
 * Draws when something begins that must not fall together with what is already there.
 *
 * @param durationS how long it lasts [s]
 * @param within where it may lie; it may overrun the end only where it is longer than that
 * @param taken what it keeps clear of, where a place for it is found in twenty draws
 */
export function placeApart(random: Random, durationS: number, within: Span, taken: readonly Span[]): number {
  const lastS = Math.max(within[0], within[1] - durationS);
  let fromS = within[0];
  for (let round = 0; round < 20; round++) {
    fromS = random.uniform(within[0], lastS);
    if (!taken.some(([a, b]) => fromS < b && fromS + durationS > a)) break;
  }
  return fromS;
}
