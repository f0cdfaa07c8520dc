import { parse } from 'csv-parse/sync';
import { DryholdError } from '../errors.ts';
import { csvDelimiter, quoting } from './csv.ts';
import { documentValues } from './json.ts';
import { valueAt } from './json-path.ts';
import type { FileKind, Layout } from './source-file.ts';
import type { HeadValue } from './source-map.ts';
import { firstLines } from './text-blocks.ts';
import { cellText, firstSheetRows } from './xlsx.ts';

/** So many lines are looked through for values that stand once in a file. */
const headLines = 200;

/**
 * The values that stand once in a file, by the map's names for them; those that were found.
 *
 * @throws DryholdError `file-unreadable`
 */
export async function headValues(
  kind: FileKind['id'],
  path: string,
  layout: Layout,
  wanted: Readonly<Record<string, HeadValue>>,
): Promise<Map<string, unknown>> {
  const entries = Object.entries(wanted);
  if (entries.length === 0) return new Map();
  const nests = kind === 'json' || kind === 'ndjson';
  const strange = entries.find(([, value]) => (value.path !== undefined) !== nests);
  if (strange !== undefined && kind !== 'parquet' && kind !== 'arrow') {
    const problem = nests ? 'needs a path' : 'has a path';
    throw new DryholdError('file-unreadable', { path, problem: `head "${strange[0]}" ${problem}, in a ${kind} file` });
  }
  if (kind === 'json') {
    const paths = entries.flatMap(([, { path: at }]) => at ?? []);
    const values = await documentValues(path, layout, paths);
    return new Map(
      entries.flatMap(([name, { path: at }]) => (values.has(at ?? '') ? [[name, values.get(at ?? '')]] : [])),
    );
  }
  if (kind === 'ndjson') return objectValues(path, layout, entries);
  if (kind === 'csv') {
    const lines = firstLines(path, layout.encoding).slice(0, headLines);
    return foundIn(entries, () =>
      lines.map((text, index) => ({ line: index + 1, cells: splitLine(path, layout, text) })),
    );
  }
  if (kind !== 'xlsx')
    throw new DryholdError('file-unreadable', { path, problem: 'a file of this kind has no lines before its table' });
  const found = new Map<string, unknown>();
  for (const sheet of new Set(entries.map(([, value]) => value.sheet))) {
    const rows = await firstSheetRows(path, sheet, headLines);
    const here = entries.filter(([, value]) => value.sheet === sheet);
    for (const [name, value] of foundIn(here, () => rows)) found.set(name, value);
  }
  return found;
}

type Entry = [name: string, value: HeadValue];

interface HeadLine {
  readonly line: number;
  readonly cells: readonly unknown[];
}

function foundIn(entries: readonly Entry[], linesOf: () => readonly HeadLine[]): Map<string, unknown> {
  const lines = linesOf();
  const found = new Map<string, unknown>();
  for (const [name, value] of entries) {
    const at =
      value.after === undefined
        ? lines.find(({ line }) => line === value.line)?.cells[value.cell - 1]
        : afterLabel(lines, value.after);
    if (at !== undefined && cellText(at) !== '') found.set(name, at);
  }
  return found;
}

/** What stands behind a label: the next cell that holds anything, or the rest of the label's own cell. */
function afterLabel(lines: readonly HeadLine[], label: string): unknown {
  const plain = (text: string) => text.replace(/\s*[:=]?\s*$/, '');
  for (const { cells } of lines) {
    for (const [index, cell] of cells.entries()) {
      const text = cellText(cell);
      if (plain(text) === plain(label)) return cells.slice(index + 1).find((next) => cellText(next) !== '');
      const rest = text.startsWith(label) ? text.slice(label.length) : '';
      if (/^\s*[:=]/.test(rest) || (/[:=]\s*$/.test(label) && rest !== '')) return rest.replace(/^\s*[:=]?\s*/, '');
    }
  }
  return undefined;
}

function splitLine(path: string, layout: Layout, text: string): string[] {
  try {
    const [cells = []] = parse(text, {
      delimiter: layout.delimiter ?? csvDelimiter(path),
      ...quoting(layout),
      relax_quotes: true,
      relax_column_count: true,
    });
    return cells;
  } catch {
    // A lone quote: the line is no row of a table.
    return text.split(layout.delimiter ?? csvDelimiter(path));
  }
}

function objectValues(path: string, layout: Layout, entries: readonly Entry[]): Map<string, unknown> {
  const found = new Map<string, unknown>();
  for (const text of firstLines(path, layout.encoding).slice(0, headLines)) {
    let object: unknown;
    try {
      object = JSON.parse(text);
    } catch {
      continue;
    }
    for (const [name, { path: at = '' }] of entries) {
      const value = valueAt([object], at);
      if (value !== undefined && !found.has(name)) found.set(name, value);
    }
  }
  return found;
}
