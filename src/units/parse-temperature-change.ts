import { DryholdError } from '../errors.ts';
import { parseAmounts } from './parse-amounts.ts';
import { quantityOf, siOf } from './quantity.ts';
import type { QuantityRange } from './range-problem.ts';
import { roundedUp } from './rounded-up.ts';
import { unitOfWord } from './unit-words.ts';
import { visibleText } from './visible-text.ts';

/**
 * A change of a temperature as a person writes it: of `2F` and `1.1K` the size of the degree counts, not its zero.
 *
 * @param range what the caller takes [K]
 * @returns change [K]
 * @throws DryholdError `unreadable-quantity`; `out-of-range`, in the degrees that were written
 * @example parseTemperatureChange('1.8F', { name: 'change', lowest: 0, highest: 50 }) // 1
 */
export function parseTemperatureChange(text: string, { name, lowest, highest }: QuantityRange): number {
  const read = parseAmounts(text);
  if ('problem' in read) throw unreadable(text, read.problem);
  const [{ value, word }, ...more] = read.amounts;
  const unit = unitOfWord(word);
  if (more.length > 0) throw unreadable(text, 'more than one number');
  if (unit !== 'F' && unit !== 'C' && unit !== 'K') throw unreadable(text, `"${word}" is no degree`);
  const degreeK = siOf(quantityOf(1, unit)) - siOf(quantityOf(0, unit));
  const signed = read.sign * value;
  if (signed * degreeK >= lowest && signed * degreeK <= highest) return signed * degreeK;
  const bound = `${roundedUp(lowest / degreeK)} to ${-roundedUp(-highest / degreeK)}`;
  throw new DryholdError('out-of-range', { quantity: `${name} [${unit}]`, bound, received: signed });
}

function unreadable(text: string, problem: string): DryholdError {
  return new DryholdError('unreadable-quantity', {
    text: visibleText(text),
    problem: visibleText(problem),
    wanted: 'a change of temperature, such as 2F or 1.1K',
  });
}
