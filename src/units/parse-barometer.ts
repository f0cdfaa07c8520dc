import { DryholdError } from '../errors.ts';
import { parseQuantity } from './parse-quantity.ts';

/** The limits of `barometer_pa` in the record of a job [Pa]. */
const LOWEST_PA = 30000;
const HIGHEST_PA = 115000;

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
  const { pressurePa } = parseQuantity(text, ['absolute-pressure'], {
    bareIsAbsolute: true,
    wanted: 'the pressure of the air, such as 24.9 inHg or 843 hPa',
  });
  if (pressurePa >= LOWEST_PA && pressurePa <= HIGHEST_PA) return pressurePa;
  const bound = `${LOWEST_PA} to ${HIGHEST_PA}`;
  throw new DryholdError('out-of-range', { quantity: 'barometer [Pa]', bound, received: pressurePa });
}
