import type { GridLine } from './draft.ts';
import type { Run } from './find-runs.ts';
import type { GridKind, GridTable } from './grid-kind.ts';

/** More different words than this tell no kinds of lines. */
const mostKinds = 12;
const mostRows = 1000;

/**
 * The table of a file whose lines are of several kinds, each told by the word in one column: the lines of the commonest kind.
 *
 * @param run the longest stretch of data, which has no header
 * @returns undefined where all lines are of one kind, or no column tells kinds apart
 */
export function mixedTable(lines: readonly GridLine[], run: Run, { sheet }: GridKind): GridTable | undefined {
  const column = kindColumn(lines, run);
  if (column === undefined) return undefined;
  const filled = lines.filter(({ cells }) => cells.some((cell) => cell !== ''));
  const word = lines[run.first].cells[column];
  const own = filled.filter(({ cells }) => cells[column] === word);
  const others = new Map<string, number>();
  for (const { cells } of filled)
    if (cells[column] !== word) others.set(cells[column] ?? '', (others.get(cells[column] ?? '') ?? 0) + 1);
  if (others.size === 0 || others.size > mostKinds) return undefined;
  const width = own.reduce((most, { cells }) => Math.max(most, cells.length), 0);
  return {
    layout: { header: false, ...(sheet === undefined ? {} : { sheet }) },
    columns: Array.from({ length: width }, (_, index) => index)
      .filter((index) => index !== column)
      .map((index) => ({
        ref: index + 1,
        name: '',
        values: own.slice(0, mostRows).map(({ cells }) => cells[index] ?? ''),
      })),
    nested: false,
    only: { column: column + 1, is: [word] },
    doubts: [
      {
        where: 'rows.0.only',
        text: `lines of several kinds are mixed, told apart by column ${column + 1}; only those with "${word}" are drafted, and no line names their columns`,
      },
    ],
    leftOut: [...others].map(([other, count]) => ({
      what: `${count} lines with "${other}" in column ${column + 1}`,
      why: 'another kind of line, which needs an entry of its own in "rows"; until then such lines are refused, and told',
    })),
    weight: run.weight,
  };
}

/** The first column that holds one word of letters all through a stretch of data. */
function kindColumn(lines: readonly GridLine[], run: Run): number | undefined {
  const rows = lines.slice(run.first, run.end).filter(({ cells }) => cells.length === run.width);
  return Array.from({ length: Math.min(3, run.width) }, (_, column) => column).find((column) => {
    const words = rows.map(({ cells }) => cells[column]);
    const [word] = words;
    const share = words.filter((each) => each === word).length / words.length;
    return /^[#$@\p{L}][\p{L}\d_-]*$/u.test(word) && share > 0.5 && lines.some(({ cells }) => cells[column] !== word);
  });
}
