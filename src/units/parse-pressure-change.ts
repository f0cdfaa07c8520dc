import { DryholdError } from '../errors.ts';
import { isGaugeUnitName } from './gauge-pressure.ts';
import { parseAmounts } from './parse-amounts.ts';
import type { QuantityRange } from './range-problem.ts';
import { roundedUp } from './rounded-up.ts';
import { dimensionOf, fromInterchange, toInterchange } from './unit.ts';
import { unitOfWord } from './unit-words.ts';
import { visibleText } from './visible-text.ts';

/**
 * A change of a pressure as a person writes it: of `1psi` and `5kPa` the size of the unit counts, not where it counts from.
 *
 * @param range what the caller takes [Pa]
 * @returns change [Pa]
 * @throws DryholdError `unreadable-quantity`; `out-of-range`, in the unit that was written
 * @example parsePressureChange('0.5psi', { name: 'step', lowest: 1, highest: 1e6 }) // 3447.379
 */
export function parsePressureChange(text: string, { name, lowest, highest }: QuantityRange): number {
  const read = parseAmounts(text);
  if ('problem' in read) throw unreadable(text, read.problem);
  const [{ value, word }, ...more] = read.amounts;
  const unit = unitOfWord(word, true);
  if (more.length > 0) throw unreadable(text, 'more than one number');
  if (unit === undefined) throw unreadable(text, `unknown unit "${word}"`);
  if (isGaugeUnitName(unit)) throw unreadable(text, `"${word}" is a pressure, not a change of one`);
  if (dimensionOf(unit) !== 'pressure') throw unreadable(text, `"${word}" is no unit of pressure`);
  const signed = read.sign * value;
  const changePa = toInterchange(signed, unit);
  if (changePa >= lowest && changePa <= highest) return changePa;
  const bound = `${roundedUp(fromInterchange(lowest, unit))} to ${-roundedUp(-fromInterchange(highest, unit))}`;
  throw new DryholdError('out-of-range', {
    quantity: `${name} [${shownNames[unit] ?? unit}]`,
    bound,
    received: signed,
  });
}

/** Units that say what they count from, which a change does not. */
const shownNames: Readonly<Record<string, string>> = { psia: 'psi', inHga: 'inHg' };

function unreadable(text: string, problem: string): DryholdError {
  return new DryholdError('unreadable-quantity', {
    text: visibleText(text),
    problem: visibleText(problem),
    wanted: 'a change of pressure, such as 1psi, 0.1psi or 5kPa',
  });
}
