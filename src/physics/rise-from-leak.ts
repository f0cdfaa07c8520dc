/**
 * Pressure rise that a leak makes in a closed volume: the inverse of `leakFromRise`.
 *
 * For whether a rise test could have seen a leak of a given size.
 *
 * @param volumeM3 closed volume [m³], above 0
 * @param leakPaM3PerS leak [Pa·m³/s], at the temperature of the gas
 * @returns rise [Pa/s]
 *
 * Source: `vacuum-rate-of-rise`, Q = V Δp/Δt. Accuracy: exact.
 *
 * @example
 * riseFromLeak(0.004, 0.00015432) // 0.03858
 */
export function riseFromLeak(volumeM3: number, leakPaM3PerS: number): number {
  return leakPaM3PerS / volumeM3;
}
