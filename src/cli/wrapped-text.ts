import { visibleText } from '../units/visible-text.ts';

/** Columns that a terminal shows whole: its own, or 100 where there is none to ask. */
export function textWidth(): number {
  return Math.min(100, Math.max(40, process.stdout.columns ?? 100));
}

/** Where a line may break: at a space, but not between a figure and its unit, nor within "bar gauge". */
const breakable =
  /(?<!\d bar(?= gauge)) (?!(?:s|min|h|µm|µm\/min|Pa|Pa\/min|psi|psig|psia|bar|inHg|K|oz|lb|g|kg|L|ft³|%|°[CF])(?![\p{L}\d]))/u;

/**
 * A text in lines that a terminal shows whole; a space that does not break is not broken at.
 *
 * @param margin what every line begins with
 */
export function wrappedText(text: string, margin: string = ''): string[] {
  const width = textWidth() - margin.length;
  const lines = [''];
  for (const word of visibleText(text).split(breakable)) {
    const line = lines.at(-1) ?? '';
    if (line !== '' && line.length + 1 + word.length > width) lines.push(word);
    else lines[lines.length - 1] = line === '' ? word : `${line} ${word}`;
  }
  return lines.map((line) => `${margin}${line}`);
}
