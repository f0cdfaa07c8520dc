import type { GridLine } from './draft.ts';

/** A quoted cell that runs over more lines than this is no cell, but a stray quote. */
const mostQuotedLines = 20;

/**
 * Splits text into lines and cells, as the reader of such files does: a quote counts at the beginning of a cell only.
 *
 * @param quote one character, or empty
 * @returns every line, blank ones too; a cell that runs over several lines makes one of them
 */
export function splitLines(text: string, delimiter: string, quote: string): GridLine[] {
  const raw = text.split(/\r\n|\n|\r/);
  if (raw.at(-1) === '') raw.pop();
  const lines: GridLine[] = [];
  for (let index = 0; index < raw.length; ) {
    const split = splitAt(raw, index, delimiter, quote);
    lines.push({ line: index + 1, cells: split.cells, text: raw[index].trim() });
    index += split.used;
  }
  return lines;
}

function splitAt(
  raw: readonly string[],
  index: number,
  delimiter: string,
  quote: string,
): { cells: string[]; used: number } {
  const plain = { cells: raw[index].split(delimiter).map((cell) => cell.trim()), used: 1 };
  if (quote === '' || !raw[index].includes(quote)) return plain;
  for (let used = 1; used <= mostQuotedLines && index + used <= raw.length; used += 1) {
    const cells = quotedCells(raw.slice(index, index + used).join('\n'), delimiter, quote);
    if (cells !== undefined) return { cells, used };
  }
  return plain;
}

/** The cells of a line with quotes in it; undefined where one stays open. */
function quotedCells(text: string, delimiter: string, quote: string): string[] | undefined {
  const cells: string[] = [];
  let at = 0;
  for (;;) {
    while (text[at] === ' ') at += 1;
    let cell = '';
    if (text[at] === quote) {
      for (at += 1; ; at += 1) {
        if (at >= text.length) return undefined;
        if (text[at] !== quote) cell += text[at];
        else if (text[at + 1] === quote) {
          cell += quote;
          at += 1;
        } else break;
      }
      at += 1;
    }
    const end = text.indexOf(delimiter, at);
    cells.push((cell + text.slice(at, end < 0 ? undefined : end)).trim());
    if (end < 0) return cells;
    at = end + delimiter.length;
  }
}
