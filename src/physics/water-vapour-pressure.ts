import { limitsOf, requireWithin } from './require-within.ts';
import { water } from './water.ts';

const temperatureLimits = limitsOf('temperature of water [K]', { from: water.lowestIceK, to: water.criticalK });

/** IAPWS R14-08, equation 6, coefficients a and exponents b. */
const iceA = [-0.212144006e2, 0.273203819e2, -0.61059813e1] as const;
const iceB = [0.333333333e-2, 0.120666667e1, 0.170333333e1] as const;

function overIce(temperatureK: number): number {
  const theta = temperatureK / water.tripleK;
  const sum = iceA[0] * theta ** iceB[0] + iceA[1] * theta ** iceB[1] + iceA[2] * theta ** iceB[2];
  return water.triplePa * Math.exp(sum / theta);
}

function overLiquid(temperatureK: number): number {
  const tau = 1 - temperatureK / water.criticalK;
  const root = Math.sqrt(tau);
  const sum =
    -7.85951783 * tau +
    1.84408259 * tau * root +
    -11.7866497 * tau ** 3 +
    22.6807411 * tau ** 3 * root +
    -15.9618719 * tau ** 4 +
    1.80122502 * tau ** 7 * root;
  return water.criticalPa * Math.exp((water.criticalK / temperatureK) * sum);
}

/**
 * Vapour pressure of pure water: over ice below the triple point (273.16 K), over liquid from there up.
 *
 * For where free water must level in a closed system, and where a pull-down stalls while water boils off.
 *
 * @param temperatureK temperature of the water [K], 50 to 647.096
 * @returns vapour pressure [Pa], absolute
 * @throws DryholdError `out-of-range` outside 50 to 647.096 K
 *
 * Source: `iapws-r14-08`, equation 6 (ice); `iapws-sr1-86` (liquid). Accuracy: within 0.008 % of IAPWS-95 (CoolProp
 * 8.0) over 0…100 °C; ice against its published value at 230 K alone; the two meet at the triple point within
 * 0.00002 %.
 *
 * @example
 * waterVapourPressure(230) // 8.94735
 */
export function waterVapourPressure(temperatureK: number): number {
  requireWithin(temperatureLimits, temperatureK);
  return temperatureK < water.tripleK ? overIce(temperatureK) : overLiquid(temperatureK);
}
