import { isGaugeUnitName } from '../../units/gauge-pressure.ts';
import { type Dimension, dimensionOf } from '../../units/unit.ts';
import { type AnyUnitName, unitOfWord } from '../../units/unit-words.ts';
import { unitBehind, withoutUnit } from '../map-columns.ts';
import { plainWords } from './plain-words.ts';

/** A unit as a file writes it. */
export interface WrittenUnit {
  /** Absent where the word leaves open which: psi, inHg, mmHg, degrees. */
  readonly unit?: AnyUnitName;
  readonly dimension: Dimension;
  /** As it stands in the file. */
  readonly text: string;
}

/** Words of other languages, and words that leave a doubt, by their dimension; in small letters without accents. */
const otherWords: ReadonlyMap<string, AnyUnitName> = new Map([
  ['mikron', 'micron'],
  ['micrones', 'micron'],
  ['micras', 'micron'],
  ['millitorr', 'mTorr'],
  ['pascal', 'Pa'],
  ['pascals', 'Pa'],
  ['grad c', 'C'],
  ['grad celsius', 'C'],
  ['degres c', 'C'],
  ['grados c', 'C'],
  ['gramm', 'g'],
  ['gramme', 'g'],
  ['grammes', 'g'],
  ['gramos', 'g'],
  ['kilogramm', 'kg'],
  ['kilogrammes', 'kg'],
  ['kilogramos', 'kg'],
  ['kilos', 'kg'],
  ['unzen', 'oz'],
  ['pfund', 'lb'],
  ['livres', 'lb'],
  ['libras', 'lb'],
  ['onces', 'oz'],
  ['onzas', 'oz'],
  ['metros', 'm'],
  ['pies', 'ft'],
  ['pieds', 'ft'],
  ['pulgadas', 'in'],
  ['pouces', 'in'],
  ['zoll', 'in'],
  ['sekunde', 's'],
  ['sekunden', 's'],
  ['seconde', 's'],
  ['secondes', 's'],
  ['segundos', 's'],
  ['seg', 's'],
  ['millisecond', 'ms'],
  ['milliseconds', 'ms'],
  ['millis', 'ms'],
  ['millisekunden', 'ms'],
  ['minuten', 'min'],
  ['minutos', 'min'],
  ['stunden', 'h'],
  ['std', 'h'],
  ['heures', 'h'],
  ['horas', 'h'],
  ['watt', 'W'],
  ['watts', 'W'],
  ['vatios', 'W'],
  ['kilowatt', 'kW'],
  ['liter', 'L'],
  ['litros', 'L'],
  ['cuft', 'ft3'],
]);

const openWords: ReadonlyMap<string, Dimension> = new Map([
  ['psi', 'pressure'],
  ['inhg', 'pressure'],
  ['in hg', 'pressure'],
  ['mmhg', 'pressure'],
  ['mm hg', 'pressure'],
  ['lb in2', 'pressure'],
  ['deg', 'temperature'],
  ['degrees', 'temperature'],
  ['grad', 'temperature'],
]);

/** The unit that a text names, if it names one. */
export function unitOfHeader(text: string): WrittenUnit | undefined {
  if (text === '' || text.length > 24) return undefined;
  const plain = plainWords(text);
  const unit = unitOfWord(text) ?? (plain === 'sek' ? 's' : otherWords.get(plain));
  if (unit !== undefined) return { unit, dimension: dimensionOfUnit(unit), text };
  const open = text === '°' ? 'temperature' : openWords.get(plain);
  return open === undefined ? undefined : { dimension: open, text };
}

/** What a unit measures, gauge units among them. */
export function dimensionOfUnit(unit: AnyUnitName): Dimension {
  return isGaugeUnitName(unit) ? 'pressure' : dimensionOf(unit);
}

/** A column's name in words, with the units that may stand in it. */
export interface ReadName {
  readonly plain: string;
  readonly units: readonly (WrittenUnit & { readonly inBrackets: boolean })[];
}

/**
 * What the name of a column says: its words, and its unit in brackets, behind a comma or as its last word or two.
 *
 * @example readName('Vacuum, microns').units[0].unit // 'micron'
 */
export function readName(name: string): ReadName {
  const units: (WrittenUnit & { inBrackets: boolean })[] = [];
  const add = (text: string | undefined, inBrackets: boolean) => {
    const unit = text === undefined ? undefined : unitOfHeader(text.trim());
    if (unit !== undefined) units.push({ ...unit, inBrackets });
  };
  const bracketed = unitBehind(name);
  add(bracketed, true);
  const rest = units.length > 0 ? withoutUnit(name) : name;
  const [, behind] = /[,;/:]\s*([^,;/:]+)$/.exec(rest) ?? [];
  add(behind, false);
  const words = rest.split(/[\s_.\-,;:()[\]]+/).filter(Boolean);
  // A number at the end counts gauges, or is a place in a list.
  const tokens = words.length > 1 && /^\d{1,2}$/.test(words.at(-1) ?? '') ? words.slice(0, -1) : words;
  if (tokens.length > 2) add(tokens.slice(-2).join(' '), false);
  if (tokens.length > 1 || tokens.length < words.length) add(tokens.at(-1), false);
  const [, camel] = /[\p{Ll}\d)](\p{Lu}\p{L}*)$/u.exec(rest) ?? [];
  if (words.length === 1) add(camel ?? (tokens[0].length > 2 ? tokens[0] : undefined), false);
  return { plain: plainWords(rest), units };
}
