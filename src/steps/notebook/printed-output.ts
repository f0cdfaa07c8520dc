import type { NotebookOutput } from '../../pages/notebook/notebook-output.ts';
import { cellText } from '../../pages/notebook/shown-table.ts';
import { visibleLines, visibleText } from '../../units/visible-text.ts';

/** What a notebook showed, as text for a terminal. */
export function printedOutput(output: NotebookOutput): string {
  if (output.kind === 'sentence') return visibleLines(output.text);
  const title = visibleText(output.title);
  if (output.kind === 'chart') return `${title}\n  ${visibleText(output.description)}`;
  const heads = [...new Set(output.rows.flatMap((row) => Object.keys(row)))];
  const lines = [heads, ...output.rows.map((row) => heads.map((head) => cellText(row[head])))].map((line) =>
    line.map(visibleText),
  );
  const widths = heads.map((_, at) => Math.max(...lines.map((line) => line[at].length)));
  const printed = lines.map((line) => `  ${line.map((cell, at) => cell.padEnd(widths[at])).join('  ')}`.trimEnd());
  return [title, ...printed].join('\n');
}
