/** The reach and the ticks of an axis of shares [ratio]. */
export interface ShareAxis {
  readonly domain: [number, number];
  readonly values: number[];
}

/**
 * An axis from 0 to the next quarter above the largest share, so that small shares are not pressed flat; charts that
 * are to be compared must be given the same largest share.
 *
 * @param largestShare largest share or upper bound to show [ratio]
 * @example shareAxis(0.61) // { domain: [0, 0.75], values: [0, 0.25, 0.5, 0.75] }
 */
export function shareAxis(largestShare: number): ShareAxis {
  const quarters = Math.min(4, Math.max(1, Math.ceil(4 * largestShare - 1e-9)));
  const values = quarters === 1 ? [0, 0.1, 0.2] : Array.from({ length: quarters + 1 }, (_, index) => index / 4);
  return { domain: [0, quarters / 4], values };
}
