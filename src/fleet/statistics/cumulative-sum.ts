/**
 * A sum that never falls below 0: small scores of one sign add up until they tell.
 *
 * For a change of a mean a score is the value less the target and half the change that should be found; for a change of the odds of a
 * job it is `oddsScore`.
 *
 * @param scores in the order of time
 * @param limitAt where the sum starts anew, by index: after a score that took it there; absent: nowhere
 * @returns the sum after each score
 *
 * Source: `page-1954`; `nist-sematech-handbook`, 6.3.2.3. Accuracy: reproduces its example, and `montgomery-runger` 16-6.
 *
 * @example [...cumulativeSum([1, -3, 2, 2])] // [1, 0, 2, 4]
 */
export function cumulativeSum(
  scores: ArrayLike<number>,
  limitAt: (index: number) => number = () => Number.POSITIVE_INFINITY,
): Float64Array {
  const sums = new Float64Array(scores.length);
  let sum = 0;
  for (let index = 0; index < scores.length; index += 1) {
    sum = Math.max(0, sum + scores[index]);
    sums[index] = sum;
    if (sum >= limitAt(index)) sum = 0;
  }
  return sums;
}

/**
 * What a job says for changed odds over unchanged ones: the logarithm of its likelihood ratio.
 *
 * @param isFound whether the job has the trait
 * @param chance what was expected of this very job, 0…1
 * @param oddsRatio the change that should be found: changed odds over unchanged ones, above 0
 *
 * Source: `steiner-2000`.
 *
 * @example oddsScore(true, 0.1, 2) // 0.5978370
 */
export function oddsScore(isFound: boolean, chance: number, oddsRatio: number): number {
  return (isFound ? Math.log(oddsRatio) : 0) - Math.log(1 - chance + oddsRatio * chance);
}
