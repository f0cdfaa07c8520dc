import { withoutUnit } from './display.ts';

/**
 * Two figures as a range, their unit said once where it is the same; one where they are.
 *
 * @param low as the functions of `display.ts` give it
 * @example rangeText('0.27 oz', '1.4 oz') // '0.27 to 1.4 oz'
 */
export function rangeText(low: string, high: string): string {
  if (low === high) return low;
  const unitOf = (text: string) => text.slice(withoutUnit(text).length);
  return `${unitOf(low) === unitOf(high) && !low.startsWith('under') ? withoutUnit(low) : low} to ${high}`;
}
