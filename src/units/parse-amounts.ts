/** A number and the word after it. */
export interface Amount {
  readonly value: number;
  readonly word: string;
  /** Whether it was written as 3/8 or 1 1/8. */
  readonly fraction: boolean;
}

const signPattern = /^([+−-]) ?/;
/** Whole and fraction, or decimals; then a word up to the next number or the end. */
const amountPattern =
  /(?:(?:(\d+)[ -])?(\d+)\/(\d+)|(\d+(?:\.\d+)?|\.\d+)) ?([^\d., ](?:[^\d.,]*?[^\d., ])?) ?(?=[\d.]|$)/y;

/**
 * The amounts that a text names one after the other, and its sign, without asking what the words mean.
 *
 * Plain decimals, or fractions below 1 with or without a whole number before them. The sign stands once, in front, as `-`,
 * `+` or U+2212.
 *
 * @returns the amounts, at least one, none below zero; or what is wrong
 * @example parseAmounts('-3.5 oz') // { sign: -1, amounts: [{ value: 3.5, word: 'oz', fraction: false }] }
 */
export function parseAmounts(text: string): { sign: 1 | -1; amounts: readonly Amount[] } | { problem: string } {
  const spaced = text
    .trim()
    .replace(/\s+/g, ' ')
    .replace(/(?<=\bft|\dft)3$/i, '³');
  const sign = signPattern.exec(spaced);
  const unsigned = spaced.slice(sign?.[0].length ?? 0);
  if (/\de[+−-]?\d/i.test(unsigned)) return { problem: 'write the number out, without an exponent' };
  const amounts: Amount[] = [];
  const pattern = new RegExp(amountPattern);
  while (pattern.lastIndex < unsigned.length) {
    const found = pattern.exec(unsigned);
    if (found === null) return { problem: problemOf(unsigned) };
    const [, whole = '0', upper, lower, decimals, word] = found;
    const part = Number(upper) / Number(lower);
    if (decimals === undefined && !(part < 1)) return { problem: `${upper}/${lower} is not a fraction below 1` };
    const value = decimals === undefined ? Number(whole) + part : Number(decimals);
    amounts.push({ value, word, fraction: decimals === undefined });
  }
  if (amounts.length === 0) return { problem: problemOf(unsigned) };
  return { sign: sign === null || sign[1] === '+' ? 1 : -1, amounts };
}

/** Why there is no amount in a text. */
function problemOf(text: string): string {
  if (!/\d/.test(text)) return 'no number';
  if (/\d[, '’_]\d/.test(text)) return 'write a number without thousands separators and with a decimal point';
  if (/^(\d+(\.\d+)?|\.\d+)$/.test(text)) return 'no unit';
  return 'not a plain number followed by its unit';
}
