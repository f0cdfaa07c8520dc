import { medianOfThree } from '../numerics/median-of-three.ts';

/** Neighbours farther apart than this tell of two things, not of one and a wild reading [s]. Common practice, no source. */
const neighboursS = 60;

/**
 * The readings without single wild ones: each is the median of it and its neighbours, where these are near enough. In a log
 * that is read every few minutes a reading by itself may be all there is of a hold or a peak, and stays.
 *
 * @param elapsedS [s], ascending; @param values parallel to it
 * @example withoutSpikes(Float64Array.of(0, 1, 2), Float64Array.of(5, 99, 6)) // 5, 6, 6
 */
export function withoutSpikes(elapsedS: Float64Array, values: Float64Array): Float64Array {
  const clean = values.slice();
  for (let at = 1; at < values.length - 1; at += 1)
    if (elapsedS[at + 1] - elapsedS[at - 1] <= neighboursS)
      clean[at] = medianOfThree(values[at - 1], values[at], values[at + 1]);
  return clean;
}

/**
 * The readings without wild ones: those that are farther than so much from the median of them and their neighbours are
 * replaced by it, and all others stay as they are.
 *
 * @param mostOff per reading, in the unit of the values
 * @example withoutWild(Float64Array.of(21, 60, 21.2), () => 3) // 21, 21.2, 21.2
 */
export function withoutWild(values: Float64Array, mostOff: (value: number) => number): Float64Array {
  const last = values.length - 1;
  const clean = new Float64Array(values.length);
  for (let at = 0; at <= last; at += 1) {
    const value = values[at];
    const middle = medianOfThree(values[Math.max(0, at - 1)], value, values[Math.min(last, at + 1)]);
    clean[at] = Math.abs(value - middle) > mostOff(middle) ? middle : value;
  }
  return clean;
}
