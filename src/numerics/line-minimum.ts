/** Where a function is least along a line, and how small it is there. */
export interface LineMinimum {
  readonly at: number;
  readonly value: number;
}

/** The part of a bracket that the golden section keeps. */
const golden = (Math.sqrt(5) - 1) / 2;
const mostStrides = 60;
const mostCuts = 200;

/**
 * The nearest minimum downhill of a start: strides that double until the function rises again, then golden sections.
 *
 * For a parameter that a model is not linear in, the others being solved for at each try.
 *
 * @param valueAt continuous function of one number; +Infinity where it has none
 * @param start where to begin
 * @param stride length of the first step, above 0
 * @param tolerance width of the last bracket; 1e-10 where left out
 * @returns undefined where the function still falls after 60 strides: then it has no minimum on that side
 *
 * Source: golden section search, textbook. Accuracy: `tolerance`, but no finer than the square root of the rounding of
 * the values.
 *
 * @example lineMinimum((x) => (x - 3) ** 2, 0, 1)?.at // 3
 */
export function lineMinimum(
  valueAt: (x: number) => number,
  start: number,
  stride: number,
  tolerance = 1e-10,
): LineMinimum | undefined {
  let middle = start;
  let atMiddle = valueAt(middle);
  let step = valueAt(start + stride) < atMiddle ? stride : -stride;
  let behind = start - step;
  let ahead = start + step;
  let atAhead = valueAt(ahead);
  for (let strides = 0; atAhead < atMiddle; strides += 1) {
    if (strides === mostStrides) return undefined;
    step *= 2;
    behind = middle;
    middle = ahead;
    atMiddle = atAhead;
    ahead = middle + step;
    atAhead = valueAt(ahead);
  }
  let low = Math.min(behind, ahead);
  let high = Math.max(behind, ahead);
  let left = high - golden * (high - low);
  let right = low + golden * (high - low);
  let atLeft = valueAt(left);
  let atRight = valueAt(right);
  for (let cut = 0; cut < mostCuts && high - low > tolerance; cut += 1) {
    if (atLeft <= atRight) {
      high = right;
      right = left;
      atRight = atLeft;
      left = high - golden * (high - low);
      atLeft = valueAt(left);
    } else {
      low = left;
      left = right;
      atLeft = atRight;
      right = low + golden * (high - low);
      atRight = valueAt(right);
    }
  }
  return atLeft <= atRight ? { at: left, value: atLeft } : { at: right, value: atRight };
}
