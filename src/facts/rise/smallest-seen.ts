import type { Sight } from './sight.ts';

/** 1.96 deviations for what is claimed, 0.84 more so that four of five are found. */
const foundDeviations = 1.96 + 0.8416;

/**
 * The least that a rise test could have seen, drift included.
 *
 * @param sight by the readings alone
 * @param driftPaPerS as `driftRate` [Pa/s]
 */
export function smallestSeen({ risePaPerS, leakPaPerS }: Sight, driftPaPerS: number): Sight {
  const seen = (paPerS: number) => Math.hypot(paPerS, foundDeviations * driftPaPerS);
  return { risePaPerS: seen(risePaPerS), leakPaPerS: seen(leakPaPerS) };
}
