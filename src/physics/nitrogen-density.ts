import { DryholdError } from '../errors.ts';
import { nitrogen } from './fluids/r-728.ts';
import { mixtureOf } from './refrigerants/mixture-of.ts';
import { vapourDensity } from './refrigerants/vapour-density.ts';
import { limitsOf, requireWithin } from './require-within.ts';

/** Nitrogen as what the equations take. */
export const nitrogenGas = mixtureOf(nitrogen.designation, [nitrogen], [1]);

const pressureLimits = limitsOf('pressure of nitrogen gas [Pa], absolute', { above: 0, to: nitrogen.highestPa });

/**
 * Density of nitrogen gas.
 *
 * @param temperatureK temperature [K], from 126.192 (critical point) to 1000
 * @param pressurePa pressure [Pa], absolute, above 0, up to 2.2 GPa
 * @returns density [kg/m³]
 * @throws DryholdError `out-of-range` outside those limits; `not-converged` where no density is found
 *
 * Source: `span-2000`. Accuracy: within 0.00001 % of CoolProp 8.0 at −50…70 °C up to 15 MPa; the paper gives 0.02 % itself.
 *
 * @example
 * nitrogenDensity(293.15, 4e6) // 46.242
 */
export function nitrogenDensity(temperatureK: number, pressurePa: number): number {
  requireNitrogenGas(temperatureK, pressurePa);
  const density = vapourDensity(nitrogenGas, temperatureK, pressurePa);
  if (density.converged) return density.densityKgPerM3;
  throw new DryholdError('not-converged', {
    quantity: `density of nitrogen at ${temperatureK} K and ${pressurePa} Pa`,
  });
}

/** Makes sure that nitrogen is a gas at this temperature, whatever the pressure, and the pressure one that it may have. */
export function requireNitrogenGas(temperatureK: number, pressurePa?: number): void {
  const { criticalK, highestK } = nitrogen;
  if (!(temperatureK >= criticalK && temperatureK <= highestK)) {
    throw new DryholdError('out-of-range', {
      quantity: 'temperature of nitrogen gas [K]',
      bound: `${criticalK} (critical point) to ${highestK}`,
      received: temperatureK,
    });
  }
  if (pressurePa !== undefined) requireWithin(pressureLimits, pressurePa);
}
