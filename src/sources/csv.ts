import { createReadStream } from 'node:fs';
import { Readable } from 'node:stream';
import { parse } from 'csv-parse';
import { DryholdError } from '../errors.ts';
import {
  type FileKind,
  rawLimit,
  type SourceRow,
  type SourceRows,
  textProblem,
  type TextLayout,
} from './source-file.ts';

/** A record as it was split, with the line on which it begins. */
interface CsvRecord {
  readonly line: number;
  readonly cells: string[];
  readonly raw: string;
}

/** Comma-separated values after RFC 4180, UTF-8, with or without a byte order mark; tabs in `.tsv`, others by layout. */
export const csv = {
  id: 'csv' as const,
  extensions: ['.csv', '.tsv', '.txt'],
  async rows(path: string, layout: TextLayout): Promise<SourceRows> {
    const records = csvRecords(path, layout);
    const first = await records.next();
    if (first.done) throw new DryholdError('file-unreadable', { path, problem: 'the file is empty' });
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
    if (layout.header === false) {
      const positions = cells.map((_, index) => String(index + 1));
      return { columns: positions, rows: sourceRows(records, cells.length, first.value), close };
    }
    return { columns: cells, rows: sourceRows(records, cells.length), close };
  },
} satisfies FileKind;

/** What parts the cells of a file whose layout nobody told. */
export function csvDelimiter(path: string): ',' | '\t' {
  return path.toLowerCase().endsWith('.tsv') ? '\t' : ',';
}

/** Splits a file. A quote within an unquoted cell is itself, spaces before a quoted one do not count, blank lines are no rows. */
async function* csvRecords(path: string, layout: TextLayout): AsyncGenerator<CsvRecord> {
  const delimiter = layout.delimiter ?? csvDelimiter(path);
  const parser = parse({
    delimiter,
    record_delimiter: ['\r\n', '\n', '\r'],
    bom: true,
    raw: true,
    ltrim: true,
    relax_column_count: true,
    relax_quotes: true,
    skip_empty_lines: true,
    max_record_size: 4 * 1024 * 1024,
  });
  const skipped = layout.skipLines ?? 0;
  const file = createReadStream(path, { highWaterMark: 1 << 20 });
  const text = skipped === 0 ? file : Readable.from(withoutLines(file, skipped));
  text.on('error', (error: Error) => parser.destroy(error));
  text.pipe(parser);
  const blankLines = delimiter === '\t' ? /^(?: *[\r\n])*/ : /^(?:[ \t]*[\r\n])*/;
  let line = skipped + 1;
  try {
    for await (const { record, raw } of parser as AsyncIterable<{ record: string[]; raw: string }>) {
      const before = blankLines.exec(raw)?.[0] ?? '';
      line += breaks(before);
      if (raw.trim() !== '' || record.length > 1) yield { line, cells: record, raw };
      line += breaks(raw.slice(before.length));
    }
  } catch (error) {
    throw new DryholdError('file-unreadable', { path, problem: splittingProblem(error as Error, line) }, error);
  } finally {
    text.destroy();
    file.destroy();
  }
}

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

/** The blocks of a file without its first lines, whatever stands in them. */
async function* withoutLines(file: AsyncIterable<Buffer>, count: number): AsyncGenerator<Buffer> {
  let left = count;
  for await (const block of file) {
    let start = 0;
    while (left > 0) {
      const end = block.indexOf(10, start);
      if (end < 0) break;
      start = end + 1;
      left -= 1;
    }
    if (left === 0 && start < block.length) yield block.subarray(start);
  }
}

async function* sourceRows(
  records: AsyncGenerator<CsvRecord>,
  width: number,
  first?: CsvRecord,
): AsyncGenerator<SourceRow> {
  if (first !== undefined) yield sourceRow(first, width);
  for await (const record of records) yield sourceRow(record, width);
}

function sourceRow({ line, cells, raw }: CsvRecord, width: number): SourceRow {
  return { line, cells, raw: () => raw.trim().slice(0, rawLimit), problem: rowProblem(cells, raw, width) };
}

/** Empty cells past the header's end do no harm: many exporters end every row with a comma. */
function rowProblem(cells: readonly string[], raw: string, width: number): string | undefined {
  if (cells.length < width || cells.slice(width).some((cell) => cell.trim() !== ''))
    return `${cells.length} fields where the header has ${width}`;
  const problem = textProblem(raw);
  return problem === undefined ? undefined : `the row ${problem}`;
}
