/** A place of a curve in its chart: from 0 at the left to 1 at the right, and height above the axis [px]; null breaks it. */
export interface CurvePlace {
  readonly across: number;
  readonly heightPx: number | null;
}

/** Where the words of a horizontal line stand. */
export interface LineCorner {
  readonly side: 'left' | 'right';
  readonly isAbove: boolean;
}

/** Words on a line take up so much of the width of a narrow chart … */
const WORDS_SHARE = 0.4;
/** … and so much height on their side of the line [px]. */
const WORDS_PX = 18;

/**
 * Where the words of a horizontal line are in the way of the fewest stretches of curves; above and left before others.
 *
 * @param curves each in the order of its places
 * @param lineHeightPx height of the line above the axis [px]
 * @param isAbove given where the words must stand above the line, or below it
 * @example emptyCorner([[{ across: 0, heightPx: 90 }, { across: 0.2, heightPx: 10 }]], 50) // { side: 'right', isAbove: true }
 */
export function emptyCorner(
  curves: readonly (readonly CurvePlace[])[],
  lineHeightPx: number,
  isAbove?: boolean,
): LineCorner {
  let best: LineCorner = { side: 'left', isAbove: isAbove ?? true };
  let fewest = Number.POSITIVE_INFINITY;
  for (const above of isAbove === undefined ? [true, false] : [isAbove]) {
    const lowPx = above ? lineHeightPx : lineHeightPx - WORDS_PX;
    // Words below a low line would run into the axis.
    if (isAbove === undefined && lowPx < 0) continue;
    for (const side of ['left', 'right'] as const) {
      const met = curves.reduce((sum, curve) => sum + stretchesIn(curve, side, lowPx, lowPx + WORDS_PX), 0);
      if (met >= fewest) continue;
      fewest = met;
      best = { side, isAbove: above };
    }
  }
  return best;
}

/** How many stretches of a curve go through the words' place. */
function stretchesIn(curve: readonly CurvePlace[], side: 'left' | 'right', lowPx: number, highPx: number): number {
  return curve.filter(({ across, heightPx }, index) => {
    const from = curve[index - 1] ?? { across, heightPx };
    if (heightPx === null || from.heightPx === null) return false;
    const isBeside = side === 'left' ? from.across > WORDS_SHARE : across < 1 - WORDS_SHARE;
    return !isBeside && Math.max(from.heightPx, heightPx) >= lowPx && Math.min(from.heightPx, heightPx) <= highPx;
  }).length;
}
