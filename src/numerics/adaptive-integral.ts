/** An integral and how far it may be off. */
export interface AdaptiveIntegral {
  readonly value: number;
  /** Estimate of the error, from halving every panel once more; NaN or large where it did not settle. */
  readonly error: number;
}

const PANELS = 8;
const MOST_HALVINGS = 40;

/**
 * Integral of a function over a finite range, by Simpson's rule on panels that halve where they must.
 *
 * For smooth functions, and for such as have a bend.
 *
 * @param valueAt function of one number
 * @param from lower end
 * @param to upper end
 * @param tolerance error to aim at, against the size of the integral, above 0; 1e-6 where left out
 * @returns value and error
 *
 * Source: textbook (adaptive Simpson with one step of Richardson's extrapolation). Accuracy: `tolerance` for the
 * functions it is tested on (exponential, one over a root, a bend); functions that hide between the first 17 points are
 * missed.
 *
 * @example
 * adaptiveIntegral((x) => 1 / x, 1, 10).value // 2.302585
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
  const panels = middles.map((middle, index) => (width / 6) * (ends[index] + 4 * middle + ends[index + 1]));
  const share = (tolerance * Math.abs(panels.reduce((sum, panel) => sum + panel, 0))) / PANELS;
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
    const lower = ((middle - low) / 6) * (atLow + 4 * atLeft + atMiddle);
    const upper = ((high - middle) / 6) * (atMiddle + 4 * atRight + atHigh);
    const miss = (lower + upper - whole) / 15;
    if (left > 0 && Math.abs(miss) > allowed) {
      halve(low, middle, [atLow, atLeft, atMiddle], lower, allowed / 2, left - 1);
      halve(middle, high, [atMiddle, atRight, atHigh], upper, allowed / 2, left - 1);
    } else {
      value += lower + upper + miss;
      error += Math.abs(miss);
    }
  };
  panels.forEach((whole, index) => {
    const low = from + index * width;
    halve(low, low + width, [ends[index], middles[index], ends[index + 1]], whole, share, MOST_HALVINGS);
  });
  return { value, error };
}
