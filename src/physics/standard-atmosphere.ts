import { limitsOf, requireWithin } from './require-within.ts';

const SEA_LEVEL_PA = 101325;
const SEA_LEVEL_K = 288.15;
const LAPSE_K_PER_M = 0.0065;
/** g / (R · lapse rate), with g = 9.80665 m/s² and R = 287.05287 J/(kg K). */
const EXPONENT = 9.80665 / (287.05287 * LAPSE_K_PER_M);

const altitudeLimits = limitsOf('altitude [m]', { from: -2000, to: 11000 });

/**
 * Pressure of the standard atmosphere at an altitude.
 *
 * For turning gauge into absolute pressure where no barometer was read.
 *
 * @param altitudeM geopotential altitude above sea level [m], −2000 to 11000
 * @returns pressure [Pa], absolute
 * @throws DryholdError `out-of-range` outside −2000 to 11000 m
 *
 * Source: `iso-2533`, layer below 11 km. Accuracy: the weather moves the real pressure by some 3 % either way.
 *
 * @example
 * standardAtmosphere(0) // 101325
 */
export function standardAtmosphere(altitudeM: number): number {
  requireWithin(altitudeLimits, altitudeM);
  return SEA_LEVEL_PA * (1 - (LAPSE_K_PER_M * altitudeM) / SEA_LEVEL_K) ** EXPONENT;
}
