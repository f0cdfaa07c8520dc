import { bracketedRoot } from '../../numerics/bracketed-root.ts';

/** No test is planned shorter than this [s]: gas and gauge have to come to rest. Common practice, no source. */
export const leastLengthS = 300;
/** Nor longer than this [s]: seven days. */
export const mostLengthS = 604_800;
/** Up to so many seconds a length is rounded up to so many. */
const rounding: readonly (readonly [untilS: number, toS: number])[] = [
  [7200, 60],
  [43_200, 300],
  [86_400, 900],
  [Number.POSITIVE_INFINITY, 3600],
];

/**
 * The shortest test that sees a leak, rounded up to what a person would set a clock to.
 *
 * @param smallestAt the smallest loss that a test sees by its length [s], no more for a longer one; undefined where it sees
 *   nothing
 * @param loss the leak, in the same unit
 * @returns length [s]; undefined where `mostLengthS` does not do
 */
export function shortestLength(
  smallestAt: (durationS: number) => number | undefined,
  loss: number,
): number | undefined {
  const seesAt = (durationS: number) => (smallestAt(durationS) ?? Number.POSITIVE_INFINITY) <= loss;
  if (seesAt(leastLengthS)) return leastLengthS;
  if (!seesAt(mostLengthS)) return undefined;
  const excess = (logS: number) => Math.log((smallestAt(Math.exp(logS)) ?? Number.MAX_VALUE) / loss);
  const rootS = Math.exp(bracketedRoot(excess, Math.log(leastLengthS), Math.log(mostLengthS * 1.001), 1e-6));
  let lengthS = roundedUp(Math.min(mostLengthS, rootS));
  // The readings of a test are whole ones: what it sees falls in small steps.
  while (lengthS < mostLengthS && !seesAt(lengthS)) lengthS = roundedUp(lengthS + 1);
  return lengthS;
}

function roundedUp(lengthS: number): number {
  const [, toS] = rounding.find(([untilS]) => lengthS <= untilS) ?? rounding[0];
  return Math.ceil(lengthS / toS - 1e-6) * toS;
}
