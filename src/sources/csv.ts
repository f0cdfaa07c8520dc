import { Readable } from 'node:stream';
import { parse } from 'csv-parse';
import { DryholdError } from '../errors.ts';
import {
  type FileKind,
  type Layout,
  longestLineBytes,
  mostColumns,
  noTable,
  rawLimit,
  type SourceRow,
  type SourceRows,
  textProblem,
} from './source-file.ts';
import { textBlocks } from './text-blocks.ts';

/** A record as it was split, with the line on which it begins. */
interface CsvRecord {
  readonly line: number;
  readonly cells: string[];
  readonly raw: string;
}

/** Rows of several kinds have no width of their own; so many of their cells can be named. */
const mostRaggedCells = 1000;

/** Cells parted by commas after RFC 4180, UTF-8, with or without a byte order mark; tabs in `.tsv`; anything else by layout. */
export const csv = {
  id: 'csv' as const,
  extensions: ['.csv', '.tsv', '.txt'],
  async rows(path: string, layout: Layout): Promise<SourceRows> {
    const records = csvRecords(path, layout);
    const first = await records.next();
    if (first.done) throw new DryholdError('file-unreadable', { path, problem: nothingThere(layout) }, noTable);
    const close = async () => {
      await records.return(undefined);
    };
    const { raw } = first.value;
    const cells = first.value.cells.map((cell) => cell.trim());
    const problem = textProblem(raw);
    if (problem !== undefined) {
      await close();
      throw new DryholdError('file-unreadable', { path, problem: `no text file: it ${problem}` });
    }
    if (cells.length > mostColumns) {
      await close();
      throw new DryholdError('file-unreadable', { path, problem: tooWide(first.value) });
    }
    const width = layout.ragged ? undefined : cells.length;
    if (layout.header === false) {
      const positions = Array.from({ length: width ?? mostRaggedCells }, (_, index) => String(index + 1));
      return {
        columns: positions,
        rows: sourceRows(records, width, first.value),
        linesBefore: first.value.line - 1,
        close,
      };
    }
    let last = first.value;
    const next = async (): Promise<string[]> => {
      const { value } = await records.next();
      if (value !== undefined) last = value;
      return value?.cells ?? [];
    };
    const units = layout.unitRow ? (await next()).map((cell) => cell.trim()) : undefined;
    for (let skipped = 0; skipped < (layout.skipAfterHeader ?? 0); skipped += 1) await next();
    const linesBefore = last.line + breaks(last.raw.trim());
    return {
      columns: cells,
      ...(units === undefined ? {} : { units }),
      rows: sourceRows(records, width),
      linesBefore,
      close,
    };
  },
} satisfies FileKind;

/** What parts the cells of a file whose layout nobody told. */
export function csvDelimiter(path: string): ',' | '\t' {
  return path.toLowerCase().endsWith('.tsv') ? '\t' : ',';
}

/** What is wrong where not even a header line was found. */
function nothingThere({ afterLine, skipLines = 0, headerBegins, untilLine }: Layout): string {
  const sought = afterLine !== undefined || skipLines > 0 || headerBegins !== undefined || untilLine !== undefined;
  return sought ? 'there is no line where the map looks for a table' : 'the file is empty';
}

function tooWide({ line, cells }: CsvRecord): string {
  return `line ${line} has ${cells.length} cells, more than the ${mostColumns} that a table may have; is it parted by something else?`;
}

/** What encloses a cell; within one it is doubled, whichever it is. */
export function quoting({ quote = '"' }: Layout): { quote: string | false; escape?: string } {
  return quote === '' ? { quote: false } : { quote, escape: quote };
}

/** Splits a table. A quote within an unquoted cell is itself, spaces before a quoted one do not count, blank lines are no rows. */
async function* csvRecords(path: string, layout: Layout): AsyncGenerator<CsvRecord, undefined> {
  const delimiter = layout.delimiter ?? csvDelimiter(path);
  const parser = parse({
    delimiter,
    ...quoting(layout),
    record_delimiter: ['\r\n', '\n', '\r'],
    bom: true,
    raw: true,
    ltrim: true,
    relax_column_count: true,
    relax_quotes: true,
    skip_empty_lines: true,
    max_record_size: longestLineBytes,
  });
  let line = 1;
  const begun = (firstLine: number) => {
    line = firstLine;
  };
  const text = Readable.from(fromTable(path, withoutMarks(textBlocks(path, layout.encoding)), layout, begun));
  text.on('error', (error: Error) => parser.destroy(error));
  text.pipe(parser);
  const blankLines = delimiter === '\t' ? /^(?: *[\r\n])*/ : /^(?:[ \t]*[\r\n])*/;
  try {
    for await (const { record, raw } of parser as AsyncIterable<{ record: string[]; raw: string }>) {
      const before = blankLines.exec(raw)?.[0] ?? '';
      line += breaks(before);
      if (layout.untilLine !== undefined && raw.slice(before.length).trimStart().startsWith(layout.untilLine)) return;
      if (raw.trim() !== '' || record.length > 1) yield { line, cells: record, raw };
      line += breaks(raw.slice(before.length));
    }
  } catch (error) {
    if (error instanceof DryholdError) throw error;
    throw new DryholdError('file-unreadable', { path, problem: splittingProblem(error as Error, line) }, error);
  } finally {
    text.destroy();
  }
}

/** The blocks without byte order marks at their beginning, however many: programs that add one do not look for one. */
async function* withoutMarks(blocks: AsyncIterable<Buffer>): AsyncGenerator<Buffer> {
  let isFirst = true;
  for await (const block of blocks) {
    let start = 0;
    while (isFirst && block.subarray(start, start + 3).equals(byteOrderMark)) start += 3;
    isFirst &&= block.length === 0;
    yield block.subarray(start);
  }
}

const byteOrderMark = Buffer.from('\uFEFF');

/** The number of line breaks in a text; a record's text may end between the two characters of one. */
function breaks(text: string): number {
  let count = 0;
  for (let index = 0; index < text.length; index += 1) {
    const code = text.charCodeAt(index);
    if (code === 10 || (code === 13 && text.charCodeAt(index + 1) !== 10)) count += 1;
  }
  return count;
}

function splittingProblem(error: Error & { code?: string }, line: number): string {
  if (error.code === 'CSV_QUOTE_NOT_CLOSED') return `a quote that opens on line ${line} or after is never closed`;
  if (error.code === 'CSV_MAX_RECORD_SIZE')
    return `the row on line ${line} is longer than 4 MiB; is a quote open that is never closed?`;
  return error.message;
}

/**
 * The blocks of a file from the header line of a table on, whatever stands before it.
 *
 * @param begun hears the number of that line, before the first block
 */
async function* fromTable(
  path: string,
  blocks: AsyncIterable<Buffer>,
  { afterLine, skipLines = 0, headerBegins }: Layout,
  begun: (line: number) => void,
): AsyncGenerator<Buffer> {
  let sought = afterLine;
  let left = skipLines;
  let line = 1;
  let rest: Buffer = Buffer.alloc(0);
  let found = sought === undefined && left === 0 && headerBegins === undefined;
  for await (const block of blocks) {
    if (found) {
      yield block;
      continue;
    }
    const bytes = rest.length === 0 ? block : Buffer.concat([rest, block]);
    if (bytes.length > longestLineBytes + block.length)
      throw new DryholdError('file-unreadable', { path, problem: `line ${line} is longer than 4 MiB` });
    let start = 0;
    for (let end = lineEnd(bytes, 0); end !== undefined && !found; end = lineEnd(bytes, start)) {
      const text = () =>
        bytes
          .toString('utf8', start, end.at)
          .replace(/^\uFEFF/, '')
          .trimStart();
      if (sought === undefined && left === 0 && (headerBegins === undefined || text().startsWith(headerBegins))) {
        found = true;
        break;
      }
      if (sought !== undefined) sought = text().startsWith(sought) ? undefined : sought;
      else if (left > 0) left -= 1;
      line += 1;
      start = end.next;
    }
    rest = bytes.subarray(start);
    if (found) {
      begun(line);
      yield rest;
    }
  }
  if (found) return;
  const wanted = sought ?? headerBegins;
  const last = rest
    .toString('utf8')
    .replace(/^\uFEFF/, '')
    .trimStart();
  if (wanted !== undefined && (sought !== undefined || !last.startsWith(wanted)))
    throw new DryholdError('file-unreadable', { path, problem: `no line begins with "${wanted}"` }, noTable);
  if (left > 0) return;
  begun(line);
  yield rest;
}

/** Where the line that begins at `start` ends, and the next begins; undefined where these bytes do not tell. */
function lineEnd(bytes: Buffer, start: number): { at: number; next: number } | undefined {
  for (let at = start; at < bytes.length; at += 1) {
    if (bytes[at] === 10) return { at, next: at + 1 };
    if (bytes[at] === 13 && at + 1 < bytes.length) return { at, next: bytes[at + 1] === 10 ? at + 2 : at + 1 };
  }
  return undefined;
}

async function* sourceRows(
  records: AsyncGenerator<CsvRecord>,
  width: number | undefined,
  first?: CsvRecord,
): AsyncGenerator<SourceRow> {
  if (first !== undefined) yield sourceRow(first, width);
  for await (const record of records) yield sourceRow(record, width);
}

function sourceRow({ line, cells, raw }: CsvRecord, width: number | undefined): SourceRow {
  return { line, cells, raw: () => raw.trim().slice(0, rawLimit), problem: rowProblem(cells, raw, width) };
}

/** Empty cells past the header's end do no harm: many exporters end every row with a comma. */
function rowProblem(cells: readonly string[], raw: string, width: number | undefined): string | undefined {
  if (width !== undefined && (cells.length < width || cells.slice(width).some((cell) => cell.trim() !== '')))
    return `${cells.length} fields where the header has ${width}`;
  const problem = textProblem(raw);
  return problem === undefined ? undefined : `the row ${problem}`;
}
