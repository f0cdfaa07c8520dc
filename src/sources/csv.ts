import { createReadStream } from 'node:fs';
import { parse } from 'csv-parse';
import { DryholdError } from '../errors.ts';
import { type FileKind, rawLimit, type SourceRow, type TextLayout } from './source-file.ts';

interface CsvRecord {
  info: { lines: number; error?: { message: string } };
  record: string[];
  raw: string;
}

/** Comma-separated values after RFC 4180, UTF-8, with or without a byte order mark; other delimiters by layout. */
export const csv: FileKind = {
  id: 'csv',
  extensions: ['.csv', '.tsv', '.txt'],
  async rows(path, layout) {
    const records = csvRecords(path, layout);
    const first = await records.next();
    if (first.done) throw new DryholdError('file-unreadable', { path, problem: 'the file is empty' });
    if (first.value.raw.includes('\0'))
      throw new DryholdError('file-unreadable', { path, problem: 'no text file: it holds NUL bytes' });
    const names = first.value.record.map((name) => name.trim());
    const close = async () => {
      await records.return(undefined);
    };
    if (layout.header === false) {
      const positions = names.map((_, index) => String(index + 1));
      return { columns: positions, rows: sourceRows(records, names.length, first.value), close };
    }
    return { columns: names, rows: sourceRows(records, names.length), close };
  },
};

async function* csvRecords(path: string, layout: TextLayout): AsyncGenerator<CsvRecord> {
  const parser = parse({
    delimiter: layout.delimiter ?? ',',
    from_line: (layout.skipLines ?? 0) + 1,
    bom: true,
    info: true,
    raw: true,
    relax_column_count: true,
    relax_quotes: true,
    skip_empty_lines: true,
    max_record_size: 4 * 1024 * 1024,
  });
  const file = createReadStream(path, { highWaterMark: 1 << 20 });
  file.on('error', (error) => parser.destroy(error));
  file.pipe(parser);
  try {
    for await (const record of parser) yield record as CsvRecord;
  } catch (error) {
    throw new DryholdError('file-unreadable', { path, problem: (error as Error).message }, error);
  } finally {
    file.destroy();
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

function sourceRow({ info, record, raw }: CsvRecord, width: number): SourceRow {
  const problem = record.length === width ? undefined : `${record.length} fields where the header has ${width}`;
  // `lines` counts to the end of the record; a record over several lines is named by its last.
  return { line: info.lines, cells: record, raw: () => raw.replace(/\r?\n$/, '').slice(0, rawLimit), problem };
}
