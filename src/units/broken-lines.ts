/** Where a line may break: at a space, but not between a figure and its unit, nor within "bar gauge". */
const breakable =
  /(?<!\d bar(?= gauge)) (?!(?:s|min|h|µm|µm\/min|Pa|Pa\/min|psi|psig|psia|bar|inHg|K|oz|lb|g|kg|L|ft³|%|°[CF])(?![\p{L}\d]))/u;

/**
 * A text in lines; a space that does not break is not broken at, and a word that is longer than a line stands alone.
 *
 * @param width of a line [characters]
 * @example brokenLines('rose by 12 µm in all', 10) // ['rose by', '12 µm in', 'all']
 */
export function brokenLines(text: string, width: number): string[] {
  const lines = [''];
  for (const word of text.split(breakable)) {
    const line = lines.at(-1) ?? '';
    if (line !== '' && line.length + 1 + word.length > width) lines.push(word);
    else lines[lines.length - 1] = line === '' ? word : `${line} ${word}`;
  }
  return lines;
}
