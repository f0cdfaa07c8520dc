/**
 * What a spreadsheet takes for a formula when it opens a CSV file, or for the beginning of another cell: a text that begins
 * so, apostrophes before it or not. Written the same in the engine's regular expressions.
 *
 * Source: `owasp-csv-injection`; and NUL, other control characters, and the wide signs of East Asian keyboards.
 */
export const formulaPattern = String.raw`^'*([\x00-\x1f]|\x20*[=+\-@\x{ff1d}\x{ff0b}\x{ff0d}\x{ff20}])`;

const marked = new RegExp(formulaPattern.replaceAll('\\x{', '\\u{').replace("'*", "''*"), 'u');
const marking = new RegExp(formulaPattern.replaceAll('\\x{', '\\u{'), 'u');
const bare = new RegExp(formulaPattern.replaceAll('\\x{', '\\u{').replace("'*", ''), 'u');

/**
 * A text as it was before its export put an apostrophe before it. Exports mark a text that begins with apostrophes and then
 * as a formula does, too, so that exactly one is taken off.
 *
 * @example withoutMark("'=1+1") // '=1+1'
 */
export function withoutMark(text: string): string {
  return marked.test(text) ? text.slice(1) : text;
}

/**
 * A text as a CSV file may hold it that a spreadsheet opens: with an apostrophe before it where it would be taken for a formula.
 *
 * @example withMark('=1+1') // "'=1+1"
 */
export function withMark(text: string): string {
  return marking.test(text) ? `'${text}` : text;
}

/** Whether a text begins as none of an export does. */
export function isBareFormula(text: string): boolean {
  return bare.test(text);
}

/** Whether a text may carry the mark of an export. */
export function isMarked(text: string): boolean {
  return marked.test(text);
}
