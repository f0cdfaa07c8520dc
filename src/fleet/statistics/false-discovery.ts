/**
 * For each of many tests, the share of false ones among those that look at least as strange: whoever acts on all up to 0.05 is
 * wrong about one in twenty of them.
 *
 * @param chances chance of each to look so by chance alone, 0…1; NaN where nothing was tested
 * @returns in the same order, 0…1; NaN where nothing was tested
 *
 * Source: `benjamini-hochberg-1995`, step-up.
 *
 * @example [...falseDiscoveryShares([0.01, 0.04, 0.03])] // [0.03, 0.04, 0.04]
 */
export function falseDiscoveryShares(chances: ArrayLike<number>): Float64Array {
  const tested = Array.from(chances, (chance, at) => ({ chance, at })).filter(({ chance }) => !Number.isNaN(chance));
  tested.sort((a, b) => b.chance - a.chance);
  const shares = new Float64Array(chances.length).fill(Number.NaN);
  let least = 1;
  for (const [index, { chance, at }] of tested.entries()) {
    least = Math.min(least, (chance * tested.length) / (tested.length - index));
    shares[at] = least;
  }
  return shares;
}
