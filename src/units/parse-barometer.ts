import { parseQuantity } from './parse-quantity.ts';
import type { QuantityRange } from './range-problem.ts';

/** The limits of `barometer_pa` in the record of a job [Pa]. */
const range: QuantityRange = { name: 'barometer', lowest: 30000, highest: 115000 };

/**
 * A barometer's reading as a person writes it. A barometer is absolute, so inHg, mmHg and psi need not say so.
 *
 * For the pressure at the site itself: a weather service's, reduced to sea level, is too high above it.
 *
 * @returns pressure [Pa], absolute, 30000 to 115000
 * @throws DryholdError `unreadable-quantity`; `out-of-range` outside the limits of the record
 * @example parseBarometer('24.9 inHg') // 84321.08
 */
export function parseBarometer(text: string): number {
  return parseQuantity(text, ['absolute-pressure'], {
    bareIsAbsolute: true,
    range,
    wanted: 'the pressure of the air, such as 24.9 inHg, 843 hPa, 84.3 kPa or 12.2 psia',
  }).pressurePa;
}
