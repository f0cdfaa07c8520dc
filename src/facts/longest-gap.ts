/** Of a longer time between two readings nothing is known but its ends [s]. Common practice, no source. */
export const mostUnseenS = 300;

/** The longest time between two readings from one to another, both included [s]; 0 where it is the same one. */
export function longestGap(elapsedS: Float64Array, fromIndex: number, toIndex: number): number {
  let longestS = 0;
  for (let i = fromIndex + 1; i <= toIndex; i += 1) {
    const gapS = elapsedS[i] - elapsedS[i - 1];
    if (gapS > longestS) longestS = gapS;
  }
  return longestS;
}
