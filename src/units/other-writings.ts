import { unitOfWord } from './unit-words.ts';

interface Doubt {
  readonly doubt: string;
  readonly words: readonly string[];
}

const degrees = { doubt: 'which degrees?', words: ['F', 'C'] };
const inchesOfMercury = {
  doubt: '"inHg" says neither gauge nor absolute,',
  words: ['inHg vacuum', 'inHg absolute'],
};
const millimetresOfMercury = { doubt: '"mmHg" says neither gauge nor absolute,', words: ['mmHg absolute'] };

/** Words that leave open which unit they mean, in lower case, or the name of a unit that can be mistaken for another. */
const doubts = new Map<string, Doubt>([
  ['psi', { doubt: '"psi" says neither gauge nor absolute,', words: ['psig', 'psia'] }],
  ['inhg', inchesOfMercury],
  ['in hg', inchesOfMercury],
  ['mmhg', millimetresOfMercury],
  ['mm hg', millimetresOfMercury],
  ['°', degrees],
  ['deg', degrees],
  ['degree', degrees],
  ['degrees', degrees],
  ['lb', { doubt: 'pounds per square inch?', words: ['psig', 'psia'] }],
  ['mpa', { doubt: 'capitals matter in MPa,', words: ['MPa'] }],
]);

const amountPattern = /^([+−-]? ?(?:\d+(?:\.\d+)?|\.\d+)) ?(\D+)$/;
const separatedPattern = /^([+−-]? ?)(\d[\d., '’_]*\d)(\D+)$/;
const thousandsPattern = /^[1-9]\d{0,2}([, '’_])\d{3}(?:\1\d{3})*(?:\.\d+)?$/;
const decimalCommaPattern = /^(?:\d+|[1-9]\d{0,2}(?:([. '’])\d{3})(?:\1\d{3})*),\d+$/;

/**
 * What somebody may have meant by a text that cannot be read. It is only said to them, and never taken.
 *
 * Of `5,280 ft` both readings: the comma may set thousands or decimals apart.
 *
 * @returns what is in doubt, and the texts to write instead, whether wanted or not; undefined where there is no doubt
 * @example otherWritings('40°') // { doubt: 'which degrees?', write: ['40F', '40C'] }
 */
export function otherWritings(text: string): { doubt: string; write: readonly string[] } | undefined {
  const spaced = text.trim().replace(/\s+/g, ' ');
  const [, number = '', word = ''] = amountPattern.exec(spaced) ?? [];
  const found = doubts.get(unitOfWord(word) ?? word.toLowerCase());
  if (found !== undefined) {
    const write = found.words.map((other) => `${number}${other.includes(' ') ? ' ' : ''}${other}`);
    return { doubt: found.doubt, write };
  }
  const [, sign = '', separated = '', unit = ''] = separatedPattern.exec(spaced) ?? [];
  const plain = [];
  if (thousandsPattern.test(separated)) plain.push(separated.replace(/[, '’_]/g, ''));
  if (decimalCommaPattern.test(separated)) plain.push(separated.replace(/[. '’]/g, '').replace(',', '.'));
  if (plain.length === 0) return undefined;
  return {
    doubt: 'a number takes a decimal point and nothing else,',
    write: plain.map((digits) => `${sign}${digits}${unit}`),
  };
}
