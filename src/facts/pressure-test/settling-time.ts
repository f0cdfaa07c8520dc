// Common practice, no source; set on simulated tests (tests/truth).
/** So long after a filling the gas is left to settle [s], and no more than this share of the hold. */
const settlingS = 300;
const settlingShare = 0.2;

/** How much of a hold is left out, since the gas settles after the filling [s]. */
export function settlingTime(holdS: number): number {
  return Math.min(settlingS, settlingShare * holdS);
}
