/**
 * Seconds as minutes to two decimals, as charts draw them.
 *
 * @param seconds [s]
 * @example minutes(90) // 1.5
 */
export function minutes(seconds: number): number {
  return Math.round(seconds / 0.6) / 100;
}
