import { DryholdError } from '../errors.ts';
import { bracketedRoot } from '../numerics/bracketed-root.ts';
import { water } from './water.ts';
import { waterVapourPressure } from './water-vapour-pressure.ts';

/**
 * Temperature at which pure water boils, or ice sublimes, at a pressure: the inverse of `waterVapourPressure`.
 *
 * For how cold a wet spot must be where a vacuum stalls or levels off at a pressure.
 *
 * @param pressurePa vapour pressure [Pa], absolute: that at 50 K (2e-40) to 22.064e6
 * @returns temperature [K]: of ice below 611.657 Pa, of liquid from there up
 * @throws DryholdError `out-of-range` outside these pressures
 *
 * Source: `iapws-r14-08`, equation 6 (ice); `iapws-sr1-86` (liquid). Accuracy: there and back within 1e-9 K; liquid
 * within 0.0011 K of IAPWS-95 (CoolProp 8.0) over 0…70 °C. The two equations miss each other by 0.00007 Pa at the
 * triple point; what falls between is 273.16 K.
 *
 * @example
 * waterSaturationTemperature(66.661184) // 248.673
 */
export function waterSaturationTemperature(pressurePa: number): number {
  const [fromK, toK] =
    pressurePa < water.triplePa ? [water.lowestIceK, water.tripleK] : [water.tripleK, water.criticalK];
  if (!(pressurePa >= waterVapourPressure(water.lowestIceK) && pressurePa <= waterVapourPressure(water.criticalK))) {
    throw new DryholdError('out-of-range', {
      quantity: 'vapour pressure of water [Pa]',
      bound: `${waterVapourPressure(water.lowestIceK).toPrecision(2)} to ${waterVapourPressure(water.criticalK)}`,
      received: pressurePa,
    });
  }
  if (pressurePa >= water.triplePa && pressurePa <= waterVapourPressure(water.tripleK)) return water.tripleK;
  const log = Math.log(pressurePa);
  return bracketedRoot((temperatureK) => Math.log(waterVapourPressure(temperatureK)) - log, fromK, toK, 1e-14);
}
