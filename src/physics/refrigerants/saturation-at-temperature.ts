import { DryholdError } from '../../errors.ts';
import type { NotConverged } from '../equations/phase-boundary.ts';
import { saturationPoint } from '../equations/saturation-point.ts';
import type { Refrigerant } from './mixture-of.ts';

/** Both sides of the saturation curve at a temperature. */
export interface SaturationAtTemperature {
  readonly converged: true;
  /** Pressure at which the liquid begins to boil, and at which the vapour begins to condense [Pa], absolute. */
  readonly bubblePa: number;
  readonly dewPa: number;
  /** Density of the boiling liquid, and of the condensing vapour [kg/m³]. */
  readonly liquidKgPerM3: number;
  readonly vapourKgPerM3: number;
  /** Largest difference of ln fugacity between the phases, without dimension. */
  readonly residual: number;
}

/**
 * Saturation of a refrigerant at a temperature, solved from its equations.
 *
 * For targets computed once a job; series of readings take `fastSaturationOf`.
 *
 * @param temperatureK temperature [K], from the triple to the critical point (of a blend: of its components, the highest)
 * @returns pressures and densities, or why there are none: `end-of-curve` near or beyond the critical point of a blend, and
 *   within some hundredths of a kelvin of a pure fluid's
 * @throws DryholdError `out-of-range` outside those temperatures
 *
 * Source: the references of the components and their pairs. Accuracy: every printed figure of CoolProp 8.0 at −50…70 °C (nine).
 * The equations themselves: see `Refrigerant`.
 *
 * @example
 * saturationAtTemperature(refrigerantNamed('R-134a'), 298.15).bubblePa // 665381
 */
export function saturationAtTemperature(
  refrigerant: Refrigerant,
  temperatureK: number,
): SaturationAtTemperature | NotConverged {
  const { designation, components, lowestK } = refrigerant;
  const highestK = Math.max(...components.map(({ criticalK }) => criticalK));
  if (!(temperatureK >= lowestK && temperatureK <= highestK)) {
    throw new DryholdError('out-of-range', {
      quantity: `saturation temperature of ${designation} [K]`,
      bound: `${lowestK} to ${highestK}, triple and critical point${components.length > 1 ? ' of components' : ''}`,
      received: temperatureK,
    });
  }
  const bubble = saturationPoint(refrigerant, 'bubble', 'temperatureK', temperatureK);
  if (!bubble.converged) return bubble;
  const dew = saturationPoint(refrigerant, 'dew', 'temperatureK', temperatureK);
  if (!dew.converged) return dew;
  return {
    converged: true,
    bubblePa: bubble.pressurePa,
    dewPa: dew.pressurePa,
    liquidKgPerM3: bubble.densityKgPerM3,
    vapourKgPerM3: dew.densityKgPerM3,
    residual: Math.max(bubble.residual, dew.residual),
  };
}
