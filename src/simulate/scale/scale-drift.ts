import type { Random } from '../../numerics/random.ts';

/**
 * Draws how a scale drifts: slowly all the time, and creeping for some minutes after it was loaded.
 *
 * @param noticeable whether it is of a size that shows: 0.15 to 0.4 g/min and 1 to 4 g of creep
 * @returns what it adds to the display [kg], by the time of the log and since the scale was last loaded [s]
 */
export function drawScaleDrift(random: Random, noticeable: boolean): (atS: number, loadedS: number) => number {
  const gramsPerMin = random.uniform(...(noticeable ? ([0.15, 0.4] as const) : ([0, 0.05] as const)));
  const driftKgPerS = (gramsPerMin / 60_000) * (random.chance(0.5) ? 1 : -1);
  const creepG = random.uniform(...(noticeable ? ([1, 4] as const) : ([0, 0.5] as const)));
  const creepKg = (creepG / 1000) * (random.chance(0.8) ? 1 : -1);
  const creepS = random.uniform(60, 300);
  return (atS, loadedS) => driftKgPerS * atS + creepKg * (1 - Math.exp(-Math.max(0, loadedS) / creepS));
}
