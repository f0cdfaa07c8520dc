/** A signal that must not move: values by row, and by how much it may drift over the window. */
export interface SteadySignal {
  /** NaN where not read. */
  readonly values: Float64Array;
  readonly mostDrift: number;
}

/** Rows of a steady window, from one to before another. */
export interface SteadyWindow {
  readonly fromRow: number;
  readonly toRow: number;
}

// Common practice, no source.
/** Windows that are tried, the longest first [s], and by how much each lies before the last [s]. */
const lengthsS = [900, 600, 300] as const;
const strideS = 20;
/** Fewest readings of a signal, and over how much of a window they reach at least [ratio]. */
const fewest = 5;
const leastShare = 0.8;

/**
 * The last window in which every signal stands: drift, by a line through it, within its bound. Oscillations that repeat
 * within it are no drift.
 *
 * @param fromS no window begins before [s]
 * @param endFromS none ends before [s]
 * @returns the latest; of those that end together the longest; undefined where nothing stands
 */
export function steadyWindow(
  elapsedS: Float64Array,
  signals: readonly SteadySignal[],
  fromS: number,
  endFromS: number,
  lastRow: number,
): SteadyWindow | undefined {
  let toRow = lastRow + 1;
  while (toRow > 1 && elapsedS[toRow - 1] >= endFromS) {
    const endS = elapsedS[toRow - 1];
    for (const lengthS of lengthsS) {
      if (endS - lengthS < fromS) continue;
      const fromRow = firstFrom(elapsedS, endS - lengthS);
      if (signals.every((signal) => isSteady(elapsedS, signal, fromRow, toRow, leastShare * lengthS)))
        return { fromRow, toRow };
    }
    const before = endS - strideS;
    while (toRow > 1 && elapsedS[toRow - 1] > before) toRow -= 1;
  }
  return undefined;
}

function isSteady(
  elapsedS: Float64Array,
  { values, mostDrift }: SteadySignal,
  from: number,
  to: number,
  leastS: number,
): boolean {
  let count = 0;
  let firstS = Number.NaN;
  let lastS = Number.NaN;
  let meanS = 0;
  let mean = 0;
  for (let row = from; row < to; row += 1) {
    if (Number.isNaN(values[row])) continue;
    if (count === 0) firstS = elapsedS[row];
    lastS = elapsedS[row];
    count += 1;
    meanS += elapsedS[row];
    mean += values[row];
  }
  if (count < fewest || lastS - firstS < leastS) return false;
  meanS /= count;
  mean /= count;
  let across = 0;
  let squares = 0;
  for (let row = from; row < to; row += 1) {
    if (Number.isNaN(values[row])) continue;
    across += (elapsedS[row] - meanS) * (values[row] - mean);
    squares += (elapsedS[row] - meanS) ** 2;
  }
  return Math.abs((across / squares) * (elapsedS[to - 1] - elapsedS[from])) <= mostDrift;
}

function firstFrom(elapsedS: Float64Array, fromS: number): number {
  let low = 0;
  let high = elapsedS.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (elapsedS[middle] < fromS) low = middle + 1;
    else high = middle;
  }
  return low;
}
