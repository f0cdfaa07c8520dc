import { DryholdError } from '../errors.ts';
import { isGaugeUnitName } from './gauge-pressure.ts';
import { joinParts, type Part } from './join-parts.ts';
import { parseAmounts } from './parse-amounts.ts';
import { type Quantity, type QuantityKind, quantityOf } from './quantity.ts';
import { fromInterchange } from './unit.ts';
import { anyUnitNames, unitOfWord } from './unit-words.ts';

export interface ParseQuantityOptions {
  /** Whether psi, inHg and mmHg with nothing said are absolute, as of a barometer. */
  readonly bareIsAbsolute?: boolean;
  /** What messages say is wanted; left out, the kinds with an example each. */
  readonly wanted?: string;
}

/** More than anybody measures in any unit, and less than what overflows on its way to SI. */
const LARGEST = 1e15;

/** How messages name each kind, and an example of it. */
const kindTexts: Readonly<Record<QuantityKind, { noun: string; example: string }>> = {
  temperature: { noun: 'a temperature', example: '40F' },
  'absolute-pressure': { noun: 'an absolute pressure', example: '250 micron' },
  'gauge-pressure': { noun: 'a gauge pressure', example: '118 psig' },
  mass: { noun: 'a mass', example: '5 lb 6 oz' },
  length: { noun: 'a length', example: '25 ft' },
  duration: { noun: 'a duration', example: '15 min' },
  volume: { noun: 'a volume', example: '4.2 L' },
  flow: { noun: 'a flow', example: '6 cfm' },
  power: { noun: 'a power', example: '3.5 kW' },
};

/**
 * What a person wrote as a quantity in SI: `40F`, `118 psig`, `5 lb 6 oz`, `3/8 in`, `250 microns`.
 *
 * Gauge and absolute pressures come out as different kinds; only a caller who knows the atmosphere can turn one into the
 * other. What is neither a temperature nor a pressure may be below zero.
 *
 * @param kinds what the caller takes, at least one
 * @throws DryholdError `unreadable-quantity`; `out-of-range` for a temperature or a pressure not above absolute zero, and
 * for a vacuum with a minus sign
 * @example parseQuantity('5 lb 6 oz', ['mass']) // { kind: 'mass', massKg: 2.438059 }
 */
export function parseQuantity<Kind extends QuantityKind>(
  text: string,
  kinds: readonly Kind[],
  { bareIsAbsolute = false, wanted = wantedText(kinds) }: ParseQuantityOptions = {},
): Extract<Quantity, { kind: Kind }> {
  const read = readPart(text, bareIsAbsolute, kinds);
  if ('problem' in read) throw new DryholdError('unreadable-quantity', { text, problem: read.problem, wanted });
  const quantity = quantityOf(read.value, read.unit);
  if (!isOneOf(quantity, kinds)) {
    const problem = `${read.unit} measures ${kindTexts[quantity.kind].noun}`;
    throw new DryholdError('unreadable-quantity', { text, problem, wanted });
  }
  requirePossible(quantity, read);
  return quantity;
}

/** The text as one number in one unit. */
function readPart(text: string, bareIsAbsolute: boolean, kinds: readonly QuantityKind[]): Part | { problem: string } {
  const read = parseAmounts(text);
  if ('problem' in read) return read;
  const parts: Part[] = [];
  for (const { value, word, fraction } of read.amounts) {
    const found = unitOfWord(word, bareIsAbsolute);
    if (found === undefined) {
      const known = anyUnitNames.filter((unit) => isOneOf(quantityOf(1, unit), kinds));
      return { problem: `unknown unit "${word}", known: ${known.join(', ')}` };
    }
    if ('write' in found) return { problem: `"${word}" says neither gauge nor absolute, write ${found.write}` };
    if (fraction && found.unit !== 'in') return { problem: 'a fraction goes with inches alone, write decimals' };
    parts.push({ value, unit: found.unit });
  }
  const joined = joinParts(parts);
  if ('problem' in joined) return joined;
  return joined.value < LARGEST ? { ...joined, value: read.sign * joined.value } : { problem: 'too large a number' };
}

function isOneOf<Kind extends QuantityKind>(
  quantity: Quantity,
  kinds: readonly Kind[],
): quantity is Extract<Quantity, { kind: Kind }> {
  return kinds.some((kind) => kind === quantity.kind);
}

function requirePossible(quantity: Quantity, { value, unit }: Part): void {
  const refuse = (name: string, bound: string) =>
    new DryholdError('out-of-range', { quantity: `${name} [${unit}]`, bound, received: value });
  if (isGaugeUnitName(unit)) {
    if (unit === 'inHgv' && value < 0) throw refuse('vacuum', 'at least 0, counted down from the atmosphere');
    return;
  }
  if (quantity.kind === 'absolute-pressure' && !(quantity.pressurePa > 0)) throw refuse('absolute pressure', 'above 0');
  // Absolute zero in °F is only near 0 K after rounding.
  if (quantity.kind === 'temperature' && !(quantity.temperatureK > 1e-9)) {
    throw refuse('temperature', `above ${fromInterchange(-273.15, unit).toFixed(2)}, absolute zero`);
  }
}

function wantedText(kinds: readonly QuantityKind[]): string {
  const nouns = kinds.map((kind) => kindTexts[kind].noun).join(' or ');
  return `${nouns}, such as ${kinds.map((kind) => kindTexts[kind].example).join(', ')}`;
}
