/** What a cell looks like, whatever it means. */
export type CellShape = 'empty' | 'number' | 'time' | 'text';

/** Words for "not read" that instruments and spreadsheets write, in lower case. */
const nullWords = new Set([
  '-',
  '--',
  '---',
  '----',
  '–',
  '—',
  'n/a',
  'na',
  '#n/a',
  'n.a.',
  'nan',
  'null',
  'none',
  'nil',
  'k.a.',
  's/d',
  'n/d',
  'nd',
  '?',
  '*',
  '**',
  '***',
  'err',
  'error',
  'fault',
  'open',
  'no probe',
  'not connected',
  'disconnected',
  '#wert!',
  '#value!',
  '#ref!',
  '#div/0!',
  'fehler',
  'erreur',
]);

const overWord =
  /^(?:o\.?\s?l\.?|o\.?f\.?l?\.?|over|overrange|over[ -]?range|over ?load|over ?flow|hi|high|above|beyond|off ?scale|out of range|\+{2,}|>+|atm)$/i;
const overLimit = /^>\s*\d[\d.,]*$/;

const numberPattern = /^[+-]?(?:\d{1,3}(?:([., '\u00a0])\d{3})(?:\1\d{3})*|\d+)?(?:[.,]\d*)?(?:[eE][+-]?\d{1,3})?$/;
const amountPattern = /^([+-]?\d[\d.,]*)(\s?)([^\d\s.,:/+-][^\d]{0,11})$/;

const monthName = '(?:\\p{L}{3,9}\\.?)';
const datePattern = new RegExp(
  `^(?:\\d{4}[-/.]\\d{1,2}[-/.]\\d{1,2}|\\d{1,2}[-/.]\\d{1,2}[-/.](?:\\d{4}|\\d{2})|\\d{1,2}[- ./]${monthName}[- ./,]+\\d{2,4}|${monthName} \\d{1,2},? \\d{4})`,
  'u',
);
const clockPattern =
  /^(?:T|\s*,?\s+)?\d{1,4}:\d{2}(?::\d{2}(?:[.,]\d+)?)?(?:\s?[AaPp]\.?[Mm]\.?)?(?:\s?(?:Z|[+-]\d{2}:?\d{2}))?$/;

/** Whether a text is a number in any of the usual ways to write one. */
export function isNumberText(text: string): boolean {
  return /\d/.test(text) && numberPattern.test(text);
}

/** Whether a text is a date, a time or both. */
export function isTimeText(text: string): boolean {
  const date = datePattern.exec(text);
  const rest = date === null ? text : text.slice(date[0].length);
  return date !== null && rest.trim() === '' ? true : clockPattern.test(rest);
}

/** A number with its unit in one cell, such as `500 micron`: the number, what parts the two, the unit. */
export function amountParts(text: string): { number: string; gap: string; unit: string } | undefined {
  const [, number, gap, unit] = amountPattern.exec(text) ?? [];
  return number === undefined ? undefined : { number, gap, unit: unit.trim() };
}

/** Whether a text is one of the usual words for "not read". */
export function isNullWord(text: string): boolean {
  return nullWords.has(text.toLowerCase());
}

/** Whether a text is one of the usual words for "above the range". */
export function isOverWord(text: string): boolean {
  return overWord.test(text) || overLimit.test(text);
}

/** What a cell's text looks like; a word for "not read" or "above the range" stands for a number. */
export function cellShape(text: string): CellShape {
  if (text === '') return 'empty';
  if (isNumberText(text) || isNullWord(text) || isOverWord(text)) return 'number';
  if (isTimeText(text)) return 'time';
  return 'text';
}
