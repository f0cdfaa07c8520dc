/** A stretch in which a curve goes one way; indices of its ends. */
export interface Leg {
  readonly direction: 'falling' | 'rising';
  readonly from: number;
  readonly to: number;
}

/**
 * Cuts a curve into falling and rising legs that each go at least `threshold` before they turn: smaller wiggles do not
 * count. A curve that never goes that far has no leg.
 *
 * @param values a curve, evenly spaced or not
 * @param threshold the least change that counts as a turn [unit of values]
 * @example turningPoints([5, 1, 4], 2) // falling 0–1, rising 1–2
 */
export function turningPoints(values: ArrayLike<number>, threshold: number): Leg[] {
  const legs: Leg[] = [];
  let low = 0;
  let high = 0;
  let start = 0;
  /** Value of the lowest of a falling leg so far, or of the highest of a rising one. */
  let turn = 0;
  let direction: Leg['direction'] | undefined;
  for (let i = 1; i < values.length; i += 1) {
    const value = values[i];
    if (direction === undefined) {
      if (value < values[low]) low = i;
      if (value > values[high]) high = i;
      if (values[high] - value >= threshold) {
        direction = 'falling';
        start = high;
        low = i;
      } else if (value - values[low] >= threshold) {
        direction = 'rising';
        start = low;
        high = i;
      }
      if (direction !== undefined) turn = value;
    } else if (direction === 'falling') {
      if (value < turn) {
        low = i;
        turn = value;
      } else if (value - turn >= threshold) {
        legs.push({ direction, from: start, to: low });
        direction = 'rising';
        start = low;
        high = i;
        turn = value;
      }
    } else if (value > turn) {
      high = i;
      turn = value;
    } else if (turn - value >= threshold) {
      legs.push({ direction, from: start, to: high });
      direction = 'falling';
      start = high;
      low = i;
      turn = value;
    }
  }
  if (direction !== undefined) legs.push({ direction, from: start, to: values.length - 1 });
  return legs;
}
