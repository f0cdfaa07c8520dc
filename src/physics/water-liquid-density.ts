import { limitsOf, requireWithin } from './require-within.ts';
import { water } from './water.ts';

const temperatureLimits = limitsOf('temperature of liquid water [K]', {
  from: water.lowestLiquidK,
  to: water.criticalK,
});

/** Coefficients and exponents of τ = 1 − T/Tc. */
const terms = [
  [1.99274064, 1 / 3],
  [1.09965342, 2 / 3],
  [-0.510839303, 5 / 3],
  [-1.75493479, 16 / 3],
  [-45.5170352, 43 / 3],
  [-6.7469445e5, 110 / 3],
] as const;

/**
 * Density of liquid water at its own vapour pressure.
 *
 * For how much water a volume of standing water is.
 *
 * @param temperatureK temperature [K], 273.15 to 647.096
 * @returns density [kg/m³]
 * @throws DryholdError `out-of-range` outside 273.15 to 647.096 K
 *
 * Source: `iapws-sr1-86`, equation for the liquid. Accuracy: within 0.0007 % of IAPWS-95 (CoolProp 8.0) over 0…70 °C.
 *
 * @example
 * waterLiquidDensity(373.1243) // 958.365
 */
export function waterLiquidDensity(temperatureK: number): number {
  requireWithin(temperatureLimits, temperatureK);
  const tau = 1 - temperatureK / water.criticalK;
  return water.criticalKgPerM3 * terms.reduce((sum, [coefficient, exponent]) => sum + coefficient * tau ** exponent, 1);
}
