import { type Data, DataType, RecordBatchReader } from 'apache-arrow';
import type { SourceRow, SourceRows } from '../sources/source-file.ts';
import { arrowMessages } from './arrow-messages.ts';
import { columnFault } from './batch-fault.ts';
import { cellsText, noFileOfKind, unbroken } from './unbroken-rows.ts';

/**
 * The rows of an Arrow IPC file or stream, batch by batch; `line` is the row number.
 *
 * @throws DryholdError `file-unreadable`
 */
export async function arrowRows(path: string): Promise<SourceRows> {
  try {
    const reader = await RecordBatchReader.from(streamed(arrowMessages(path)));
    await reader.open();
    // The format lets a column have no name at all.
    const columns = reader.schema.fields.map((field) => (field.name as string | null) ?? '');
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
    throw noFileOfKind(path, 'Arrow IPC', error);
  }
}

/** What comes asynchronously is read batch by batch, and not gathered first. */
async function* streamed(messages: Iterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  yield* messages;
}

interface Batch {
  readonly numRows: number;
  readonly data: Data;
  getChildAt(index: number): { get(row: number): unknown } | null;
}

async function* batchRows(
  reader: AsyncIterable<Batch>,
  readers: readonly ((value: unknown) => unknown)[],
): AsyncGenerator<SourceRow> {
  let line = 0;
  for await (const batch of reader) {
    checkBatch(batch);
    const vectors = readers.map((_, index) => batch.getChildAt(index));
    for (let row = 0; row < batch.numRows; row += 1) {
      line += 1;
      const cells = vectors.map((vector, index) => {
        const value = vector?.get(row);
        return value === null || value === undefined ? null : readers[index](value);
      });
      yield { line, cells, raw: () => cellsText(cells) };
    }
  }
}

/** Refuses a batch that does not hold what it says; rows of which no column holds anything could be without end. */
function checkBatch({ numRows, data }: Batch): void {
  if (numRows > 0 && data.children.every(({ type }) => DataType.isNull(type)))
    throw new Error(`it says ${numRows} rows, and holds no value`);
  const fault = data.children.map((child) => columnFault(child, numRows)).find((each) => each !== undefined);
  if (fault !== undefined) throw new Error(fault);
}

/** Days and instants as ISO 8601; a time stamp without a zone stays without, and is refused for it. */
function asText(type: DataType): (value: unknown) => unknown {
  if (DataType.isDate(type)) return (value) => isoText(value)?.slice(0, 10) ?? String(value);
  if (DataType.isTimestamp(type)) {
    const zone = type.timezone === null || type.timezone === undefined ? '' : 'Z';
    return (value) => {
      const text = isoText(value);
      return text === undefined ? String(value) : `${text.replace(/(\.000)?Z$/, '')}${zone}`;
    };
  }
  return (value) => value;
}

/** A moment as ISO 8601; undefined where no calendar has it. */
function isoText(value: unknown): string | undefined {
  const moment = new Date(Number(value));
  return Number.isNaN(moment.getTime()) ? undefined : moment.toISOString();
}
