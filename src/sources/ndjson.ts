import { createReadStream } from 'node:fs';
import { createInterface } from 'node:readline';
import { DryholdError } from '../errors.ts';
import { type FileKind, rawLimit, type SourceRow } from './source-file.ts';

/** Newline-delimited JSON: one flat object a line, UTF-8. Column names are those of the whole file, in order of appearance. */
export const ndjson: FileKind = {
  id: 'ndjson',
  extensions: ['.ndjson', '.jsonl'],
  async rows(path) {
    const columns = await columnNames(path);
    if (columns.length === 0)
      throw new DryholdError('file-unreadable', { path, problem: 'no line holds a JSON object' });
    return { columns, rows: sourceRows(path, columns) };
  },
};

async function columnNames(path: string): Promise<string[]> {
  const names = new Set<string>();
  for await (const { object } of objects(path)) for (const name of Object.keys(object ?? {})) names.add(name);
  return [...names];
}

async function* sourceRows(path: string, columns: readonly string[]): AsyncGenerator<SourceRow> {
  for await (const { line, text, object } of objects(path)) {
    const raw = () => text.slice(0, rawLimit);
    if (object === undefined) yield { line, cells: undefined, raw, problem: 'not a JSON object' };
    else yield { line, cells: columns.map((name) => object[name]), raw };
  }
}

async function* objects(path: string) {
  const file = createReadStream(path, { encoding: 'utf8', highWaterMark: 1 << 20 });
  let line = 0;
  for await (const text of createInterface({ input: file, crlfDelay: Number.POSITIVE_INFINITY })) {
    line += 1;
    if (text.trim() !== '') yield { line, text, object: parseObject(text) };
  }
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
