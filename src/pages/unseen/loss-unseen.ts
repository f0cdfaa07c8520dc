import { lossSize } from '../../checks/leak-kind.ts';
import { yearlyLossText } from '../../units/display.ts';
import { rangeText } from '../../units/range-text.ts';
import type { UnseenMaterial } from './unseen-words.ts';

/**
 * What a leak that a test could just not have told may lose, in words that follow "that"; empty where volume or refrigerant is not known.
 *
 * @param lowKg what it would lose in a year at least, and `highKg` at most [kg]
 */
export function lossUnseen(
  { facts, units }: UnseenMaterial,
  lowKg: number | undefined,
  highKg: number | undefined,
): string {
  const size = lossSize(facts, lowKg, highKg);
  if (size === undefined || lowKg === undefined || highKg === undefined) return '';
  return size === 'whole-charge'
    ? 'may lose the whole charge within a year or far sooner'
    : `may lose ${rangeText(yearlyLossText(lowKg, units), yearlyLossText(highKg, units))} a year, as an order of magnitude`;
}
