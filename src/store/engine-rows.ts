import { createReadStream } from 'node:fs';
import { DataType, RecordBatchReader } from 'apache-arrow';
import { DryholdError } from '../errors.ts';
import { rawLimit, type SourceRow, type SourceRows } from '../sources/source-file.ts';
import { identifier, literal } from './sql.ts';
import type { Store } from './store.ts';

/**
 * The rows of an Arrow IPC file or stream, batch by batch; `line` is the row number.
 *
 * @throws DryholdError `file-unreadable`
 */
export async function arrowRows(path: string): Promise<SourceRows> {
  try {
    const reader = await RecordBatchReader.from(createReadStream(path));
    await reader.open();
    const columns = reader.schema.fields.map((field) => field.name);
    return {
      columns,
      rows: unbroken(
        path,
        batchRows(
          reader as never,
          reader.schema.fields.map((field) => asText(field.type)),
        ),
      ),
    };
  } catch (error) {
    throw new DryholdError(
      'file-unreadable',
      { path, problem: `no Arrow IPC file (${(error as Error).message})` },
      error,
    );
  }
}

interface Batches
  extends AsyncIterable<{ numRows: number; getChildAt(index: number): { get(row: number): unknown } | null }> {}

async function* batchRows(
  reader: Batches,
  readers: readonly ((value: unknown) => unknown)[],
): AsyncGenerator<SourceRow> {
  let line = 0;
  for await (const batch of reader) {
    const vectors = readers.map((_, index) => batch.getChildAt(index));
    for (let row = 0; row < batch.numRows; row += 1) {
      line += 1;
      const cells = vectors.map((vector, index) => {
        const value = vector?.get(row);
        return value === null || value === undefined ? null : readers[index](value);
      });
      yield { line, cells, raw: () => rawOf(cells) };
    }
  }
}

/** The rows, with what breaks off in their midst told as a file that cannot be read. */
async function* unbroken(path: string, rows: AsyncGenerator<SourceRow>): AsyncGenerator<SourceRow> {
  let line = 0;
  try {
    for await (const row of rows) {
      line = row.line;
      yield row;
    }
  } catch (error) {
    const problem = `breaks off after row ${line} (${(error as Error).message.split('\n')[0]})`;
    throw new DryholdError('file-unreadable', { path, problem }, error);
  }
}

/** Days and instants as ISO 8601; a time stamp without a zone stays without, and is refused for it. */
function asText(type: DataType): (value: unknown) => unknown {
  if (DataType.isDate(type)) return (value) => new Date(value as number).toISOString().slice(0, 10);
  if (DataType.isTimestamp(type)) {
    const zone = type.timezone === null || type.timezone === undefined ? '' : 'Z';
    return (value) => `${new Date(value as number).toISOString().replace(/(\.000)?Z$/, '')}${zone}`;
  }
  return (value) => value;
}

function rawOf(cells: readonly unknown[]): string {
  return JSON.stringify(cells, (_, cell: unknown) => {
    if (typeof cell === 'bigint') return Number(cell);
    return typeof cell === 'number' && !Number.isFinite(cell) ? String(cell) : cell;
  }).slice(0, rawLimit);
}

/**
 * The rows of a Parquet file; `line` is the row number.
 *
 * @throws DryholdError `file-unreadable`
 */
export async function parquetRows(store: Store, path: string): Promise<SourceRows> {
  const described = await describe(store, path);
  const columns = described.map((column) => column.column_name);
  return { columns, rows: unbroken(path, parquetRowsOf(store, path, described.map(asTextColumn).join(', '))) };
}

/** The column names of a Parquet file with the types that the engine gives them. */
export async function parquetColumns(store: Store, path: string): Promise<Map<string, string>> {
  return new Map((await describe(store, path)).map((column) => [column.column_name, column.column_type]));
}

async function describe(store: Store, path: string): Promise<{ column_name: string; column_type: string }[]> {
  try {
    return await store.rows(
      `SELECT column_name, column_type FROM (DESCRIBE SELECT * FROM read_parquet(${literal(path)}))`,
    );
  } catch (error) {
    throw new DryholdError(
      'file-unreadable',
      { path, problem: `no Parquet file (${(error as Error).message.split('\n')[0]})` },
      error,
    );
  }
}

async function* parquetRowsOf(store: Store, path: string, select: string): AsyncGenerator<SourceRow> {
  let line = 0;
  for await (const rows of store.stream(`SELECT ${select} FROM read_parquet(${literal(path)})`)) {
    for (const cells of rows) {
      line += 1;
      yield { line, cells, raw: () => rawOf(cells) };
    }
  }
}

function asTextColumn({ column_name, column_type }: { column_name: string; column_type: string }): string {
  const name = identifier(column_name);
  if (column_type === 'DATE') return `strftime(${name}, '%Y-%m-%d')`;
  if (column_type === 'TIMESTAMP WITH TIME ZONE')
    return `replace(strftime(${name}, '%Y-%m-%dT%H:%M:%S.%gZ'), '.000Z', 'Z')`;
  // Without a zone it is no point in time, and is refused for it.
  if (column_type.startsWith('TIMESTAMP'))
    return `regexp_replace(strftime(${name}, '%Y-%m-%dT%H:%M:%S.%g'), '\\.000$', '')`;
  if (column_type === 'TIME') return `${name}::VARCHAR`;
  return name;
}
