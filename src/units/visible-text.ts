/**
 * What a terminal obeys or nobody sees: control and format characters, line and paragraph separators, half characters, and what is no
 * character.
 */
const unseen = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}\p{NChar}]/gu;

/** A text of several lines, likewise. */
export function visibleLines(text: string): string {
  return text.split('\n').map(visibleText).join('\n');
}

/**
 * A text that may stand in a message: on one line, and without anything that a terminal would obey.
 *
 * @example visibleText('40\t°F') // '40\\u{9}°F'
 */
export function visibleText(text: string): string {
  return text.replace(unseen, (character) => `\\u{${character.codePointAt(0)?.toString(16)}}`);
}
