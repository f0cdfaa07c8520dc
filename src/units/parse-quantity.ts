import { DryholdError } from '../errors.ts';
import { joinParts, type Part } from './join-parts.ts';
import { otherWritings } from './other-writings.ts';
import { parseAmounts } from './parse-amounts.ts';
import { type Quantity, type QuantityKind, quantityOf } from './quantity.ts';
import { type QuantityRange, rangeProblem } from './range-problem.ts';
import { unitOfWord } from './unit-words.ts';
import { visibleText } from './visible-text.ts';
import { nounOf, wantedText } from './wanted-text.ts';

export interface ParseQuantityOptions {
  /** Whether psi, inHg and mmHg with nothing said are absolute, as of a barometer. */
  readonly bareIsAbsolute?: boolean;
  /** What messages say is wanted; left out, the kinds with examples. */
  readonly wanted?: string;
  /** Left out, all that physics allows. */
  readonly range?: QuantityRange;
}

/** More than anybody measures in any unit, and less than what overflows on its way to SI. */
const LARGEST = 1e15;

/**
 * What a person wrote as a quantity in SI: `40F`, `118 psig`, `5 lb 6 oz`, `3/8 in`, `250 microns`.
 *
 * Gauge and absolute pressures come out as different kinds; only a caller who knows the atmosphere can turn one into the
 * other. What is neither a temperature nor a pressure may be below zero.
 *
 * @param kinds what the caller takes, at least one
 * @throws DryholdError `unreadable-quantity`; `out-of-range` for a temperature or a pressure not above absolute zero, for a
 * vacuum with a minus sign, and outside the caller's range
 * @example parseQuantity('5 lb 6 oz', ['mass']) // { kind: 'mass', massKg: 2.438059 }
 */
export function parseQuantity<Kind extends QuantityKind>(
  text: string,
  kinds: readonly Kind[],
  { bareIsAbsolute = false, wanted = wantedText(kinds), range }: ParseQuantityOptions = {},
): Extract<Quantity, { kind: Kind }> {
  const read = readQuantity(text, kinds, bareIsAbsolute);
  if ('problem' in read) {
    const problem = visibleText(hint(text, kinds, bareIsAbsolute) ?? read.problem);
    throw new DryholdError('unreadable-quantity', { text: visibleText(text), problem, wanted });
  }
  const problem = rangeProblem(read.quantity, read.part, range);
  if (problem !== undefined) throw new DryholdError('out-of-range', problem);
  return read.quantity;
}

/** The text as a quantity of the kinds, whether there can be one or not. */
function readQuantity<Kind extends QuantityKind>(
  text: string,
  kinds: readonly Kind[],
  bareIsAbsolute: boolean,
): { quantity: Extract<Quantity, { kind: Kind }>; part: Part } | { problem: string } {
  const part = readPart(text, bareIsAbsolute);
  if ('problem' in part) return part;
  const quantity = quantityOf(part.value, part.unit);
  if (isOneOf(quantity, kinds)) return { quantity, part };
  return { problem: `${part.unit} measures ${nounOf(quantity.kind)}` };
}

/** The text as one number in one unit. */
function readPart(text: string, bareIsAbsolute: boolean): Part | { problem: string } {
  const read = parseAmounts(text);
  if ('problem' in read) return read;
  const parts: Part[] = [];
  for (const { value, word, fraction } of read.amounts) {
    const unit = unitOfWord(word, bareIsAbsolute);
    if (unit === undefined) return { problem: `unknown unit "${word}"` };
    if (fraction && unit !== 'in') return { problem: 'a fraction goes with inches alone, write decimals' };
    parts.push({ value, unit });
  }
  const joined = joinParts(parts);
  if ('problem' in joined) return joined;
  return joined.value < LARGEST ? { ...joined, value: read.sign * joined.value } : { problem: 'too large a number' };
}

/** What to write instead of the text; nothing that would be refused in its turn, unless by the caller's range. */
function hint(text: string, kinds: readonly QuantityKind[], bareIsAbsolute: boolean): string | undefined {
  const { doubt, write } = otherWritings(text) ?? { doubt: '', write: [] };
  const readable = write.filter((other) => {
    const read = readQuantity(other, kinds, bareIsAbsolute);
    return !('problem' in read) && rangeProblem(read.quantity, read.part) === undefined;
  });
  return readable.length === 0 ? undefined : `${doubt} write ${readable.join(' or ')}`;
}

function isOneOf<Kind extends QuantityKind>(
  quantity: Quantity,
  kinds: readonly Kind[],
): quantity is Extract<Quantity, { kind: Kind }> {
  return kinds.some((kind) => kind === quantity.kind);
}
