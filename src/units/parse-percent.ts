import { DryholdError } from '../errors.ts';
import { parseAmounts } from './parse-amounts.ts';
import type { QuantityRange } from './range-problem.ts';
import { roundedUp } from './rounded-up.ts';
import { visibleText } from './visible-text.ts';

/**
 * A ratio as a person writes it, in per cent.
 *
 * @param range what the caller takes [ratio]
 * @returns ratio
 * @throws DryholdError `unreadable-quantity` without its per cent; `out-of-range`
 * @example parsePercent('1.5 %', { name: 'noise', lowest: 0, highest: 0.1 }) // 0.015
 */
export function parsePercent(text: string, { name, lowest, highest }: QuantityRange): number {
  const read = parseAmounts(text);
  if ('problem' in read || read.amounts.length > 1 || !/^(%|percent|per cent)$/i.test(read.amounts[0].word)) {
    const problem = 'problem' in read && read.problem !== 'no unit' ? read.problem : 'it needs its per cent sign';
    throw new DryholdError('unreadable-quantity', {
      text: visibleText(text),
      problem,
      wanted: 'a share in per cent, such as 1% or 0.5%',
    });
  }
  const percent = read.sign * read.amounts[0].value;
  const ratio = percent / 100;
  if (ratio >= lowest && ratio <= highest) return ratio;
  const bound = `${roundedUp(100 * lowest)} to ${-roundedUp(-100 * highest)}`;
  throw new DryholdError('out-of-range', { quantity: `${name} [%]`, bound, received: percent });
}
