/**
 * The means of neighbours, so many at a time; what is left over at the end stays out.
 *
 * @param from first index; @param to index after the last
 * @param group how many make one mean, from 1
 * @example [...groupMeans(Float64Array.of(1, 3, 5, 7, 100), 0, 5, 2)] // [2, 6]
 */
export function groupMeans(values: Float64Array, from: number, to: number, group: number): Float64Array {
  if (group === 1) return values.subarray(from, to);
  const means = new Float64Array(Math.floor((to - from) / group));
  for (let k = 0; k < means.length; k += 1) {
    let sum = 0;
    const first = from + k * group;
    for (let i = first; i < first + group; i += 1) sum += values[i];
    means[k] = sum / group;
  }
  return means;
}
