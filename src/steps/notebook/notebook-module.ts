import { linesOf, type NotebookParts } from '../../pages/notebook/notebook-parts.ts';

/**
 * The cells of a notebook as one TypeScript module, each on the lines where it stands in the file: prose is left blank, so that whatever tells
 * a line of the module tells one of the notebook.
 *
 * @param markdown the file's text
 * @param opening the statement on the line of an opening fence, by that line; none where it is left out
 */
export function notebookModule(
  markdown: string,
  { parts }: Pick<NotebookParts, 'parts'>,
  opening: (line: number) => string = () => '',
): string {
  const lines = linesOf(markdown).map(() => '');
  for (const part of parts) {
    if (!('code' in part)) continue;
    const { line, code } = part;
    lines[line - 1] = opening(line);
    for (const [at, text] of code.split('\n').entries()) lines[line + at] = text;
  }
  return lines.join('\n');
}
