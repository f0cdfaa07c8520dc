import { DryholdError } from '../../errors.ts';
import type { NotConverged } from '../equations/phase-boundary.ts';
import { saturationPoint } from '../equations/saturation-point.ts';
import type { Refrigerant } from './mixture-of.ts';

/** Both sides of the saturation curve at a pressure. */
export interface SaturationAtPressure {
  readonly converged: true;
  /** Temperature at which the liquid begins to boil (subcooling is counted from it), and at which the vapour begins to condense (superheat) [K]. */
  readonly bubbleK: number;
  readonly dewK: number;
  /** Density of the boiling liquid, and of the condensing vapour [kg/m³]. */
  readonly liquidKgPerM3: number;
  readonly vapourKgPerM3: number;
  /** Largest difference of ln fugacity between the phases, without dimension. */
  readonly residual: number;
}

/**
 * Saturation of a refrigerant at a pressure, solved from its equations.
 *
 * For targets computed once a job; series of readings take `fastSaturationOf`.
 *
 * @param pressurePa pressure [Pa], absolute, above 0, up to the critical pressure; of a blend up to the upper limit of its
 *   equations
 * @returns temperatures and densities, or why there are none: `end-of-curve` near or beyond the critical point of a blend, and
 *   within some thousandths of a pure fluid's critical pressure
 * @throws DryholdError `out-of-range` outside those pressures, and where the temperature is below the triple point
 *
 * Source: the references of the components and their pairs. Accuracy: every printed figure of CoolProp 8.0 at −50…70 °C (nine).
 * The equations themselves: see `Refrigerant`.
 *
 * @example
 * saturationAtPressure(refrigerantNamed('R-134a'), 101325).dewK // 247.076
 */
export function saturationAtPressure(
  refrigerant: Refrigerant,
  pressurePa: number,
): SaturationAtPressure | NotConverged {
  const { designation, components, lowestK } = refrigerant;
  const highestPa = components.length > 1 ? refrigerant.highestPa : components[0].criticalPa;
  if (!(pressurePa > 0 && pressurePa <= highestPa)) {
    throw new DryholdError('out-of-range', {
      quantity: `saturation pressure of ${designation} [Pa], absolute`,
      bound: `above 0 and at most ${highestPa}${components.length > 1 ? '' : ' (critical point)'}`,
      received: pressurePa,
    });
  }
  const bubble = saturationPoint(refrigerant, 'bubble', 'pressurePa', pressurePa);
  if (!bubble.converged) return bubble;
  const dew = saturationPoint(refrigerant, 'dew', 'pressurePa', pressurePa);
  if (!dew.converged) return dew;
  if (bubble.temperatureK < lowestK) {
    throw new DryholdError('out-of-range', {
      quantity: `saturation temperature of ${designation} at ${pressurePa} Pa [K]`,
      bound: `at least ${lowestK} (triple point${components.length > 1 ? ' of a component' : ''})`,
      received: bubble.temperatureK,
    });
  }
  return {
    converged: true,
    bubbleK: bubble.temperatureK,
    dewK: dew.temperatureK,
    liquidKgPerM3: bubble.densityKgPerM3,
    vapourKgPerM3: dew.densityKgPerM3,
    residual: Math.max(bubble.residual, dew.residual),
  };
}
