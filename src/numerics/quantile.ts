/**
 * A quantile of some numbers, of Hyndman and Fan's type 7, without changing them; NaN for none.
 *
 * Source: `hyndman-fan-1996`.
 *
 * @param share from 0, the least, to 1, the most
 * @example quantile([1, 2, 3, 5], 0.5) // 2.5
 */
export function quantile(values: ArrayLike<number>, share: number): number {
  const sorted = Float64Array.from(values).sort();
  if (sorted.length === 0) return Number.NaN;
  const place = Math.min(1, Math.max(0, share)) * (sorted.length - 1);
  const below = Math.floor(place);
  const above = Math.min(sorted.length - 1, below + 1);
  return sorted[below] + (place - below) * (sorted[above] - sorted[below]);
}
