/** What was fitted to the rise after valve-off. Parallel arrays; pressures absolute [Pa]. */
export interface FittedRise {
  /** The fitted curve: times since valve-off [s], rising, and the pressures there. */
  readonly sinceS: readonly number[];
  readonly fittedPa: readonly number[];
  /** Steady part of the rise, as a leak climbs, with its 95 % interval [Pa/s]. */
  readonly leakPaPerS: number;
  readonly leakLowPaPerS: number;
  readonly leakHighPaPerS: number;
  /** Where the slackening part would level; null where nothing tells. No upper end: it may level anywhere above. */
  readonly plateau: { readonly pa: number; readonly lowPa: number; readonly highPa: number | null } | null;
}

/** A straight line up from the start of a rise, cut off where it leaves the chart. */
export interface SteadyLine {
  readonly sinceS: number;
  readonly pa: number;
}

/**
 * Where a steady climb from the start of a rise ends on a chart.
 *
 * @param endS length of the rise [s]
 * @param topPa upper end of the chart [Pa]
 */
export function steadyEnd({ fittedPa }: FittedRise, paPerS: number, endS: number, topPa: number): SteadyLine {
  const startPa = fittedPa[0] ?? 0;
  const leavesS = paPerS > 0 ? (topPa - startPa) / paPerS : Number.POSITIVE_INFINITY;
  const sinceS = Math.min(endS, leavesS);
  return { sinceS, pa: startPa + paPerS * sinceS };
}
