const MOST_STEPS = 200;

/**
 * Root of a function between two points where its sign differs.
 *
 * For equations that are known to cross zero once in a known range. A jump across zero counts as a root.
 *
 * @param valueAt continuous function of one number
 * @param from one end of the range
 * @param to the other end
 * @param tolerance width of the last bracket against the size of the root, above 0; 1e-12 where left out
 * @returns the root; NaN where the signs at both ends are the same, where a value is NaN, and after 200 steps without
 *   an end
 *
 * Source: `chandrupatla-1997` (inverse quadratic steps kept safe by bisection). Accuracy: `tolerance`, but no finer
 * than the numbers themselves.
 *
 * @example
 * bracketedRoot((x) => x * x - 2, 0, 2) // 1.41421356
 */
export function bracketedRoot(
  valueAt: (x: number) => number,
  from: number,
  to: number,
  tolerance: number = 1e-12,
): number {
  // b and c hold the bracket, b is the newer one; a is the point before.
  let b = from;
  let c = to;
  let atB = valueAt(b);
  let atC = valueAt(c);
  if (atB === 0) return b;
  if (atC === 0) return c;
  if (!(atB < 0 ? atC > 0 : atB > 0 && atC < 0)) return Number.NaN;
  let a = c;
  let atA = atC;
  let share = 0.5;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const x = b + share * (c - b);
    const atX = valueAt(x);
    if (Number.isNaN(atX)) return Number.NaN;
    if (atX === 0) return x;
    if (atX > 0 === atB > 0) {
      a = b;
      atA = atB;
    } else {
      a = c;
      atA = atC;
      c = b;
      atC = atB;
    }
    b = x;
    atB = atX;
    const nearest = Math.abs(atB) < Math.abs(atC) ? b : c;
    // No step shorter than half the tolerance: it would not close the bracket.
    const least = (Math.max(tolerance, Number.EPSILON) * Math.abs(nearest) * 0.5) / Math.abs(c - b);
    if (least > 0.5) return nearest;
    share = Math.min(Math.max(stepShare(a, b, c, atA, atB, atC), least), 1 - least);
  }
  return Number.NaN;
}

/** Where between b (0) and c (1) to look next: the zero of the parabola where that is monotone, else the middle. */
function stepShare(a: number, b: number, c: number, atA: number, atB: number, atC: number): number {
  const xi = (b - c) / (a - c);
  const phi = (atB - atC) / (atA - atC);
  if (!(phi ** 2 < xi && (1 - phi) ** 2 < 1 - xi)) return 0.5;
  return (atB / (atC - atB)) * (atA / (atC - atA)) + ((a - b) / (c - b)) * (atB / (atA - atB)) * (atC / (atA - atC));
}
