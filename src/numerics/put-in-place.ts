/**
 * Moves the number that a sort would put at a place there, none above it before it and none below it after it.
 *
 * For a median or a quantile, which want no more of a sort than this.
 *
 * Source: Hoare's algorithm 65, textbook.
 * @param values no NaN; reordered
 * @param place an index of theirs
 * @example
 * const values = Float64Array.of(5, 1, 4, 2, 3);
 * putInPlace(values, 2);
 * values[2] // 3
 */
export function putInPlace(values: Float64Array, place: number): void {
  let low = 0;
  let high = values.length - 1;
  while (low < high) {
    const pivot = values[place];
    let i = low;
    let j = high;
    while (i <= j) {
      while (values[i] < pivot) i += 1;
      while (values[j] > pivot) j -= 1;
      if (i > j) break;
      const swapped = values[i];
      values[i] = values[j];
      values[j] = swapped;
      i += 1;
      j -= 1;
    }
    if (j < place) low = i;
    if (i > place) high = j;
  }
}
