import { createReadStream } from 'node:fs';
import { DryholdError } from '../errors.ts';
import {
  type FileKind,
  rawLimit,
  type SourceRow,
  type SourceRows,
  type TextLayout,
  textProblem,
} from './source-file.ts';

/**
 * Newline-delimited JSON: one flat object a line, UTF-8, with or without a byte order mark. Column names are those of the
 * whole file, in order of appearance; a file without any line has none.
 */
export const ndjson = {
  id: 'ndjson' as const,
  extensions: ['.ndjson', '.jsonl'],
  async rows(path: string, _layout: TextLayout): Promise<SourceRows> {
    const { columns, lines } = await columnNames(path);
    if (lines > 0 && columns.length === 0)
      throw new DryholdError('file-unreadable', { path, problem: 'no line holds a JSON object' });
    return { columns, rows: sourceRows(path, columns) };
  },
} satisfies FileKind;

async function columnNames(path: string): Promise<{ columns: string[]; lines: number }> {
  const names = new Set<string>();
  let lines = 0;
  for await (const { text } of textLines(path)) {
    lines += 1;
    for (const name of Object.keys(parseObject(text) ?? {})) names.add(name);
  }
  return { columns: [...names], lines };
}

async function* sourceRows(path: string, columns: readonly string[]): AsyncGenerator<SourceRow> {
  for await (const { line, text } of textLines(path)) {
    const raw = () => text.slice(0, rawLimit);
    const object = parseObject(text);
    const wrong = textProblem(text);
    if (object === undefined) yield { line, cells: undefined, raw, problem: 'not a JSON object' };
    else if (wrong === undefined) yield { line, cells: columns.map((name) => cellOf(object[name])), raw };
    else yield { line, cells: undefined, raw, problem: `the row ${wrong}` };
  }
}

/** Numbers that JSON can spell and a double cannot hold stay wrong, rather than become "above the range". */
function cellOf(value: unknown): unknown {
  return typeof value === 'number' && !Number.isFinite(value) ? String(value) : value;
}

const longestLine = 4 * 1024 * 1024;

/** The lines that are not blank. Only line feeds part them: JSON text may hold every other separator. */
async function* textLines(path: string): AsyncGenerator<{ line: number; text: string }> {
  const file = createReadStream(path, { encoding: 'utf8', highWaterMark: 1 << 20 });
  let line = 0;
  let rest = '';
  try {
    for await (const block of file) {
      const parts = (rest + (block as string)).split('\n');
      rest = parts.pop() ?? '';
      if (rest.length > longestLine) throw new Error(`line ${line + parts.length + 1} is longer than 4 MiB`);
      for (const part of parts) {
        line += 1;
        const text = trimmed(part, line);
        if (text !== '') yield { line, text };
      }
    }
  } catch (error) {
    throw new DryholdError('file-unreadable', { path, problem: (error as Error).message }, error);
  }
  const text = trimmed(rest, line + 1);
  if (text !== '') yield { line: line + 1, text };
}

function trimmed(text: string, line: number): string {
  return (line === 1 ? text.replace(/^\uFEFF/, '') : text).trim();
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
