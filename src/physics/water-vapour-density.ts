import { limitsOf, requireWithin } from './require-within.ts';
import { water } from './water.ts';

const temperatureLimits = limitsOf('temperature of saturated water vapour [K]', {
  from: water.lowestLiquidK,
  to: water.criticalK,
});

/** Coefficients and exponents of τ = 1 − T/Tc. */
const terms = [
  [-2.0315024, 2 / 6],
  [-2.6830294, 4 / 6],
  [-5.38626492, 8 / 6],
  [-17.2991605, 18 / 6],
  [-44.7586581, 37 / 6],
  [-63.9201063, 71 / 6],
] as const;

/**
 * Density of water vapour over liquid water.
 *
 * For how little water it takes to fill a circuit with vapour: 92 mg in 5 L at 70 °F.
 *
 * @param temperatureK temperature [K], 273.15 to 647.096
 * @returns density [kg/m³]
 * @throws DryholdError `out-of-range` outside 273.15 to 647.096 K
 *
 * Source: `iapws-sr1-86`, equation for the vapour. Accuracy: within 0.015 % of IAPWS-95 (CoolProp 8.0) over 0…70 °C.
 *
 * @example
 * waterVapourDensity(373.1243) // 0.597586
 */
export function waterVapourDensity(temperatureK: number): number {
  requireWithin(temperatureLimits, temperatureK);
  const tau = 1 - temperatureK / water.criticalK;
  const log = terms.reduce((sum, [coefficient, exponent]) => sum + coefficient * tau ** exponent, 0);
  return water.criticalKgPerM3 * Math.exp(log);
}
