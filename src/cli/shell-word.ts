import { visibleText } from '../units/visible-text.ts';

/** A word of a command line, in quotes where it needs them. */
export function shellWord(text: string): string {
  return /^[\w./@%+,:-]+$/.test(text) ? text : `'${visibleText(text).replaceAll("'", String.raw`'\''`)}'`;
}
