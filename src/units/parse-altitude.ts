import { parseQuantity } from './parse-quantity.ts';
import type { QuantityRange } from './range-problem.ts';

/** Where the standard atmosphere holds [m]; `iso-2533`, layer below 11 km. */
const range: QuantityRange = { name: 'altitude', lowest: -2000, highest: 11000 };

/**
 * An altitude as a person writes it.
 *
 * @returns altitude [m], below zero under sea level, -2000 to 11000
 * @throws DryholdError `unreadable-quantity`; `out-of-range` where the standard atmosphere does not hold
 * @example parseAltitude('5000 ft') // 1524
 */
export function parseAltitude(text: string): number {
  return parseQuantity(text, ['length'], { range, wanted: 'an altitude, such as 5000 ft or 1500 m' }).lengthM;
}
