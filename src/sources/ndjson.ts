import { DryholdError } from '../errors.ts';
import { pathSteps, rowsBelow } from './json-path.ts';
import {
  deepestNesting,
  type FileKind,
  type Layout,
  longestLineBytes,
  rawLimit,
  type SourceRow,
  type SourceRows,
  textProblem,
} from './source-file.ts';
import { textBlocks } from './text-blocks.ts';

/**
 * Newline-delimited JSON: one object a line, UTF-8, with or without a byte order mark. Of a bundle it is flat, and column
 * names are those of the whole file, in order of appearance; a file without any line has none.
 */
export const ndjson = {
  id: 'ndjson' as const,
  extensions: ['.ndjson', '.jsonl'],
  async rows(path: string, layout: Layout): Promise<SourceRows> {
    if (layout.nested) return { columns: [], rows: nestedRows(path, layout) };
    const { columns, lines } = await columnNames(path, layout);
    if (lines > 0 && columns.length === 0)
      throw new DryholdError('file-unreadable', { path, problem: 'no line holds a JSON object' });
    return { columns, rows: sourceRows(path, layout, columns) };
  },
} satisfies FileKind;

/** Every row is asked for every name: with more of them a small file could keep a machine busy for hours. */
const mostNames = 1000;
const tooManyNames = `its lines have more than ${mostNames} names, and no table so many columns; a map may pick those that are meant`;

async function columnNames(path: string, layout: Layout): Promise<{ columns: string[]; lines: number }> {
  const names = new Set<string>();
  let lines = 0;
  for await (const { text } of textLines(path, layout)) {
    lines += 1;
    for (const name of Object.keys(parseObject(text) ?? {})) names.add(name);
    if (names.size > mostNames) throw new DryholdError('file-unreadable', { path, problem: tooManyNames });
  }
  return { columns: [...names], lines };
}

async function* sourceRows(path: string, layout: Layout, columns: readonly string[]): AsyncGenerator<SourceRow> {
  for await (const { line, text } of textLines(path, layout)) {
    const raw = () => text.slice(0, rawLimit);
    const object = parseObject(text);
    const wrong = textProblem(text);
    if (object === undefined) yield { line, cells: undefined, raw, problem: 'not a JSON object' };
    else if (nestsTooDeeply(text, object)) yield { line, cells: undefined, raw, problem: tooDeep };
    else if (wrong === undefined) yield { line, cells: columns.map((name) => cellOf(object[name])), raw };
    else yield { line, cells: undefined, raw, problem: `the row ${wrong}` };
  }
}

/** Rows as objects that may nest; where the layout says so several from a line, each with the line's number. */
async function* nestedRows(path: string, layout: Layout): AsyncGenerator<SourceRow> {
  const steps = pathSteps(layout.rowsAt ?? '');
  for await (const { line, text } of textLines(path, layout)) {
    const raw = () => text.slice(0, rawLimit);
    const wrong = textProblem(text);
    const object = parseObject(text);
    if (wrong !== undefined) yield { line, cells: undefined, raw, problem: `the row ${wrong}` };
    else if (object === undefined) yield { line, cells: undefined, raw, problem: 'not a JSON object' };
    else if (nestsTooDeeply(text, object)) yield { line, cells: undefined, raw, problem: tooDeep };
    else for (const around of rowsBelow([object], steps)) yield { line, cells: undefined, around, raw };
  }
}

/** Numbers that JSON can spell and a double cannot hold stay wrong, rather than become "above the range". */
function cellOf(value: unknown): unknown {
  return typeof value === 'number' && !Number.isFinite(value) ? String(value) : value;
}

/** The lines that are not blank. Only line feeds part them: JSON text may hold every other separator. */
async function* textLines(path: string, layout: Layout): AsyncGenerator<{ line: number; text: string }> {
  const decoder = new TextDecoder();
  let line = 0;
  let rest = '';
  try {
    for await (const block of textBlocks(path, layout.encoding)) {
      const parts = (rest + decoder.decode(block, { stream: true })).split('\n');
      rest = parts.pop() ?? '';
      if (rest.length > longestLineBytes) throw new Error(`line ${line + parts.length + 1} is longer than 4 MiB`);
      for (const part of parts) {
        line += 1;
        const text = trimmed(part, line);
        if (text !== '') yield { line, text };
      }
    }
  } catch (error) {
    if (error instanceof DryholdError) throw error;
    throw new DryholdError('file-unreadable', { path, problem: (error as Error).message }, error);
  }
  const text = trimmed(rest, line + 1);
  if (text !== '') yield { line: line + 1, text };
}

function trimmed(text: string, line: number): string {
  return (line === 1 ? text.replace(/^\uFEFF/, '') : text).trim();
}

const tooDeep = `it nests deeper than ${deepestNesting} levels`;

function nestsTooDeeply(text: string, value: unknown): boolean {
  // Each level takes two characters at least.
  if (text.length < 2 * deepestNesting) return false;
  let level: unknown[] = [value];
  for (let depth = 0; level.length > 0; depth += 1) {
    if (depth > deepestNesting) return true;
    level = level.flatMap((each) => (typeof each === 'object' && each !== null ? Object.values(each) : []));
  }
  return false;
}

function parseObject(text: string): Record<string, unknown> | undefined {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' && value !== null && !Array.isArray(value)
      ? (value as Record<string, unknown>)
      : undefined;
  } catch {
    return undefined;
  }
}
