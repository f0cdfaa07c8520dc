/**
 * The median of three numbers.
 *
 * For taking out spikes of one reading: the median of a reading and its neighbours.
 *
 * @example medianOfThree(5, 1, 3) // 3
 */
export function medianOfThree(a: number, b: number, c: number): number {
  if (a > b) return b > c ? b : a > c ? c : a;
  return a > c ? a : b > c ? c : b;
}
