/**
 * Thins a curve for drawing: of every stretch the lowest and the highest reading stay, so that no peak is lost.
 *
 * @param values a curve; NaN never stays
 * @param most the most readings that may stay, at least 2
 * @returns the indices that stay, ascending
 * @example decimate([1, 5, 2, 8, 3, 3], 4)
 */
export function decimate(values: ArrayLike<number>, most: number): number[] {
  if (values.length <= most)
    return Array.from({ length: values.length }, (_, index) => index).filter((index) => !Number.isNaN(values[index]));
  const stretches = Math.max(1, Math.floor(most / 2));
  const kept: number[] = [];
  for (let stretch = 0; stretch < stretches; stretch += 1) {
    const from = Math.floor((stretch * values.length) / stretches);
    const to = Math.floor(((stretch + 1) * values.length) / stretches);
    let low = -1;
    let high = -1;
    for (let i = from; i < to; i += 1) {
      if (Number.isNaN(values[i])) continue;
      if (low < 0 || values[i] < values[low]) low = i;
      if (high < 0 || values[i] > values[high]) high = i;
    }
    if (low < 0) continue;
    kept.push(Math.min(low, high));
    if (low !== high) kept.push(Math.max(low, high));
  }
  return kept;
}
