import type { Evacuation } from '../../src/simulate/evacuation.ts';

/**
 * Where the pressure of a system would level if it were isolated now and neither leaked nor gave off anything but the
 * water on its walls [Pa].
 *
 * In `Evacuation` the walls and the vapour approach each other at 1/wallWaterS + 1/wallDryingS, the vapour by its share:
 * this is where that ends, exactly.
 *
 * @returns undefined where standing water is left
 */
export function plateauOf(evacuation: Evacuation): number | undefined {
  if (evacuation.waterLeftKg > 0) return undefined;
  const { wallWaterS, wallDryingS } = evacuation.circuit;
  const apartPa = evacuation.waterTendencyPa - evacuation.waterPa;
  return evacuation.meanPa + (apartPa * wallDryingS) / (wallWaterS + wallDryingS);
}
