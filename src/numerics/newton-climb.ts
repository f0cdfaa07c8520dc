import { solveSymmetric } from './solve-symmetric.ts';

/** How a likelihood bends at a place, and how it rises there with each coefficient. */
export interface Curvature {
  /** Row by row, on and below the diagonal; overwritten. */
  readonly information: Float64Array;
  /** Overwritten. */
  readonly score: Float64Array;
}

/** Where a climb ended. */
export interface Summit<Place> {
  readonly coefficients: Float64Array;
  readonly place: Place;
  /** Whether the last step was small enough; what stands here is the best so far if not. */
  readonly isConverged: boolean;
}

const mostSteps = 60;
const smallStep = 1e-9;
const smallShare = 1e-6;

/**
 * The top of a concave likelihood by Newton's steps, each halved until the likelihood does not fall.
 *
 * @param placeAt the likelihood under coefficients, as `value`, with whatever else belongs to it
 * @param curvatureAt how it bends there
 * @param start coefficients to begin with
 * @returns undefined where the information cannot be inverted
 *
 * Source: textbook.
 *
 * @example
 * // −(x − 3)²
 * newtonClimb(([x]) => ({ value: -((x - 3) ** 2) }), ([x]) => ({ information: Float64Array.of(2), score: Float64Array.of(2 * (3 - x)) }), Float64Array.of(0)).coefficients[0] // 3
 */
export function newtonClimb<Place extends { readonly value: number }>(
  placeAt: (coefficients: Float64Array) => Place,
  curvatureAt: (coefficients: Float64Array, place: Place) => Curvature,
  start: Float64Array,
): Summit<Place> | undefined {
  let [coefficients, place, isConverged] = [start, placeAt(start), false];
  for (let step = 0; step < mostSteps && !isConverged; step += 1) {
    const { information, score: change } = curvatureAt(coefficients, place);
    if (!solveSymmetric(information, change)) return undefined;
    let share = 1;
    let tried = moved(coefficients, change, share);
    let next = placeAt(tried);
    while (!(next.value >= place.value) && share > smallShare) {
      share /= 2;
      tried = moved(coefficients, change, share);
      next = placeAt(tried);
    }
    if (!(next.value >= place.value)) break;
    const longest = change.reduce((most, each) => Math.max(most, Math.abs(each)), 0) * share;
    [coefficients, place] = [tried, next];
    isConverged = longest < smallStep;
  }
  return { coefficients, place, isConverged };
}

function moved(from: Float64Array, by: Float64Array, share: number): Float64Array {
  return from.map((value, column) => value + share * by[column]);
}
