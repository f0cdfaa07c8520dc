import { parseQuantity } from './parse-quantity.ts';

/**
 * An altitude as a person writes it.
 *
 * @returns altitude [m], below zero under sea level; whether there is such a place is not asked
 * @throws DryholdError `unreadable-quantity`
 * @example parseAltitude('5000 ft') // 1524
 */
export function parseAltitude(text: string): number {
  return parseQuantity(text, ['length'], { wanted: 'an altitude, such as 5000 ft or 1500 m' }).lengthM;
}
