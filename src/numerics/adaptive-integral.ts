/** An integral and how far it may be off. */
export interface AdaptiveIntegral {
  readonly value: number;
  /** Estimate of the error, from halving every panel once more; NaN where a value is no number. */
  readonly error: number;
  /** True where `error` is within what was aimed at. */
  readonly converged: boolean;
}

const PANELS = 8;
const MOST_HALVINGS = 40;
/** The panels that are left when these are used up are looked at once each, and not halved. */
const MOST_EVALUATIONS = 20_000;

/**
 * Integral of a function over a finite range, by Simpson's rule on panels that halve where they must.
 *
 * For smooth functions, and for such as have a bend.
 *
 * @param valueAt function of one number
 * @param from lower end
 * @param to upper end
 * @param tolerance error to aim at, above 0; 1e-6 where left out. It counts against the integral of the function's size
 *   |f|, as the first 17 points show it: against the integral itself where the sign stays the same, and against what
 *   cancels where it changes, so that an integral of 0 has an end too
 * @returns value, error, and whether the error is within `tolerance`: not where a value is NaN or infinite, and not
 *   where some 20 000 looks at the function were not enough
 *
 * Source: textbook (adaptive Simpson with one step of Richardson's extrapolation). Accuracy: `tolerance` for the
 * functions it is tested on (exponential, one over a root, a bend, a jump, waves); functions that hide between the
 * first 17 points are missed.
 *
 * @example
 * adaptiveIntegral((x) => 1 / x, 1, 10, 1e-9).value // 2.302585
 */
export function adaptiveIntegral(
  valueAt: (x: number) => number,
  from: number,
  to: number,
  tolerance: number = 1e-6,
): AdaptiveIntegral {
  const width = (to - from) / PANELS;
  const ends = Array.from({ length: PANELS + 1 }, (_, index) => valueAt(from + index * width));
  const middles = Array.from({ length: PANELS }, (_, index) => valueAt(from + (index + 0.5) * width));
  const size = middles.reduce(
    (sum, middle, index) => sum + simpson(width, Math.abs(ends[index]), Math.abs(middle), Math.abs(ends[index + 1])),
    0,
  );
  const aim = tolerance * Math.abs(size);
  let evaluationsLeft = MOST_EVALUATIONS;
  let value = 0;
  let error = 0;
  const halve = (
    low: number,
    high: number,
    atEnds: readonly number[],
    whole: number,
    allowed: number,
    left: number,
  ) => {
    const [atLow, atMiddle, atHigh] = atEnds;
    const middle = (low + high) / 2;
    const atLeft = valueAt((low + middle) / 2);
    const atRight = valueAt((middle + high) / 2);
    evaluationsLeft -= 2;
    const lower = simpson(middle - low, atLow, atLeft, atMiddle);
    const upper = simpson(high - middle, atMiddle, atRight, atHigh);
    const miss = (lower + upper - whole) / 15;
    if (left > 0 && evaluationsLeft > 0 && Math.abs(miss) > allowed) {
      halve(low, middle, [atLow, atLeft, atMiddle], lower, allowed / 2, left - 1);
      halve(middle, high, [atMiddle, atRight, atHigh], upper, allowed / 2, left - 1);
    } else {
      value += lower + upper + miss;
      error += Math.abs(miss);
    }
  };
  middles.forEach((middle, index) => {
    const low = from + index * width;
    const whole = simpson(width, ends[index], middle, ends[index + 1]);
    halve(low, low + width, [ends[index], middle, ends[index + 1]], whole, aim / PANELS, MOST_HALVINGS);
  });
  return { value, error, converged: error <= aim && Number.isFinite(value) };
}

/** Simpson's rule over one panel. */
function simpson(width: number, atLow: number, atMiddle: number, atHigh: number): number {
  return (width / 6) * (atLow + 4 * atMiddle + atHigh);
}
