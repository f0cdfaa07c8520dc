import type { Random } from '../../numerics/random.ts';
import { fastSaturationOf } from '../../physics/index.ts';
import type { Crew } from '../crews.ts';

/**
 * Draws what stands in a charging hose when the cylinder is closed [kg]: condensing vapour, or liquid that is somewhat
 * subcooled or has flashed a little.
 *
 * @param temperatureK of the hose [K]
 */
export function drawHoseContentKg(
  random: Random,
  hose: Crew['chargingHose'],
  refrigerant: string,
  temperatureK: number,
): number {
  const volumeM3 = (Math.PI / 4) * (hose.boreMm / 1000) ** 2 * hose.lengthM;
  const fillRatio = random.uniform(0.93, 1.03);
  const saturation = fastSaturationOf(refrigerant);
  return hose.phase === 'vapour'
    ? volumeM3 * saturation.vapourKgPerM3(temperatureK)
    : volumeM3 * saturation.liquidKgPerM3(temperatureK) * fillRatio;
}
