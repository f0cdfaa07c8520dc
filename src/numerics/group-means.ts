import type { Scratch } from './scratch.ts';

/**
 * The means of neighbours, so many at a time; what is left over at the end stays out.
 *
 * @param from first index; @param to index after the last
 * @param group how many make one mean, from 1
 * @param scratch to write into; fresh memory where left out
 * @example [...groupMeans(Float64Array.of(1, 3, 5, 7, 100), 0, 5, 2)] // [2, 6]
 */
export function groupMeans(
  values: Float64Array,
  from: number,
  to: number,
  group: number,
  scratch?: Scratch,
): Float64Array {
  if (group === 1) return values.subarray(from, to);
  const count = Math.floor((to - from) / group);
  const means = scratch === undefined ? new Float64Array(count) : scratch.take(count);
  let i = from;
  for (let k = 0; k < count; k += 1) {
    let sum = 0;
    for (const end = i + group; i < end; i += 1) sum += values[i];
    means[k] = sum / group;
  }
  return means;
}
