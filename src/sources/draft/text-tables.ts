import { fileKindOf } from '../file-kinds.ts';
import type { FileContent } from './file-content.ts';
import type { Doubt, FoundTables, GridLine } from './draft.ts';
import { findRuns } from './find-runs.ts';
import { gridTables } from './grid-tables.ts';
import { headPlaces } from './head-places.ts';
import { splitLines } from './split-lines.ts';

const delimiters = [',', ';', '\t', '|', '~'] as const;
const delimiterNames: Readonly<Record<string, string>> = {
  ',': 'commas',
  ';': 'semicolons',
  '\t': 'tabs',
  '|': 'upright strokes',
  '~': 'tildes',
  ' ': 'spaces',
};

/** So many lines are enough to tell what parts the cells. */
const linesForDelimiter = 400;

/**
 * The tables of a text file.
 *
 * @param tail the last lines of a file of which `content` is only the first part
 * @returns undefined where no table was found
 */
export function textTables(
  name: string,
  content: Extract<FileContent, { text: string }>,
  complete: boolean,
  tail: readonly string[],
): FoundTables | undefined {
  const text = content.text.replace(/^\uFEFF/, '');
  const begin = text.split('\n', linesForDelimiter).join('\n');
  const [byMarks, second] = splits(begin, delimiters);
  // Words hold spaces: they part cells only where all lines then have as many, and no mark makes as much of a table.
  const [bySpaces] = splits(begin, [' ']);
  const best = bySpaces.weight > byMarks.weight && isEven(bySpaces) ? bySpaces : byMarks;
  if (best.weight === 0) return undefined;
  const { delimiter } = best;
  const quote = usesQuote(begin, delimiter, "'") && !usesQuote(begin, delimiter, '"') ? "'" : '"';
  const lines = splitLines(text, delimiter, quote);
  // The last line may be cut in two.
  if (!complete && lines.length > 1) lines.pop();
  const { tables, preamble } = gridTables(lines, { isSheet: false, tail, delimiter, quote });
  if (tables.length === 0) return undefined;
  const isOnly = best.lines.every((line) => line.cells.length === 1);
  const close = second !== undefined && second.delimiter !== delimiter && second.weight > best.weight * 0.8 && !isOnly;
  const doubts: Doubt[] = close
    ? [
        {
          where: 'file.delimiter',
          text: `cells may as well be parted by ${delimiterNames[second.delimiter]}; taken are ${delimiterNames[delimiter]}`,
        },
      ]
    : [];
  if (content.encoding === 'windows-1252')
    doubts.push({
      where: 'file.encoding',
      text: 'the bytes are no UTF-8; windows-1252, the usual one of older programs, is taken. Look whether letters with accents come out right',
    });
  const [first] = tables;
  return {
    kind: 'csv',
    content: `${isOnly ? 'text with one column' : `text parted by ${delimiterNames[delimiter]}`}${content.encoding === 'utf-8' ? '' : `, ${content.encoding}`}`,
    file: {
      ...(fileKindOf(name) !== undefined && fileKindOf(name)?.id !== 'csv' ? { kind: 'csv' as const } : {}),
      ...(content.encoding === 'utf-8' || content.marked ? {} : { encoding: content.encoding }),
      ...(delimiter === ',' ? {} : { delimiter }),
      ...(quote === '"' ? {} : { quote }),
    },
    tables,
    heads: headPlaces(preamble),
    doubts,
    ...(first.mark === undefined ? {} : { mark: first.mark }),
  };
}

interface Split {
  readonly delimiter: string;
  readonly lines: readonly GridLine[];
  readonly weight: number;
}

/** The ways to split the lines, best first. */
function splits(text: string, by: readonly string[]): Split[] {
  return by
    .flatMap((delimiter) => ['"', "'"].map((quote) => ({ delimiter, lines: splitLines(text, delimiter, quote) })))
    .map((split) => ({ ...split, weight: weightOf(split.lines) }))
    .toSorted((a, b) => b.weight - a.weight);
}

/** Whether all lines that hold anything have as many cells, two or more and none of them empty. */
function isEven({ lines }: Split): boolean {
  const filled = lines.filter(({ text }) => text !== '');
  const width = filled[0]?.cells.length ?? 0;
  return width > 1 && filled.every(({ cells }) => cells.length === width && !cells.includes(''));
}

/** How much of a table a way to split the lines makes; less where its cells still hold what parts cells elsewhere. */
function weightOf(lines: readonly GridLine[]): number {
  const [run] = findRuns(lines);
  if (run === undefined) return listWeight(lines);
  const header = run.header === undefined ? undefined : lines[run.header].cells;
  const named = header === undefined ? 1 : header.length === run.width ? 1.5 : 1.1;
  const isUnsplit = lines
    .slice(run.first, Math.min(run.end, run.first + 20))
    .some(({ cells }) => cells.some((cell) => /[;\t|~]/.test(cell)));
  return run.weight * named * (isUnsplit ? 0.5 : 1);
}

/** A list of words has no run of numbers; it counts by lines of one width. */
function listWeight(lines: readonly GridLine[]): number {
  const width = lines[0]?.cells.length ?? 0;
  return width < 2 ? 0 : lines.filter(({ cells }) => cells.length === width).length * 0.1 * width;
}

/** Whether cells are enclosed in a sign. */
function usesQuote(text: string, delimiter: string, quote: string): boolean {
  const escaped = delimiter === '|' ? '\\|' : delimiter;
  return new RegExp(`(?:^|${escaped})${quote}[^${quote}\\n]*${quote}(?=${escaped}|\\r|$)`, 'm').test(text);
}
