import { once } from 'node:events';
import type { Writable } from 'node:stream';
import { finished } from 'node:stream/promises';
import {
  Bool,
  type DataType,
  Field,
  Float64,
  makeData,
  RecordBatch,
  RecordBatchFileWriter,
  Schema,
  Struct,
  Utf8,
  vectorFromArray,
} from 'apache-arrow';
import type { DuckDBDateValue } from '@duckdb/node-api';
import type { Store } from './store.ts';

/** Writes a select as an Arrow IPC file, chunk by chunk: numbers as doubles, days and instants as ISO 8601 text. */
export async function writeArrow(store: Store, select: string, to: Writable): Promise<void> {
  const result = await store.connection.stream(select);
  const types = result.columnTypes().map((type) => arrowType(String(type)));
  const schema = new Schema(result.columnNames().map((name, index) => new Field(name, types[index], true)));
  const writer = new RecordBatchFileWriter();
  const source = writer.toNodeStream();
  const whole = finished(to);
  // A failure is heard at the end, or where the stream is waited for.
  whole.catch(() => undefined);
  source.pipe(to);
  writer.write(
    new RecordBatch(
      schema,
      structOf(
        schema,
        types.map(() => []),
        0,
      ),
    ),
  );
  for await (const chunk of result) {
    if (chunk.rowCount === 0) continue;
    const columns = types.map((type, index) => chunk.getColumnValues(index).map((value) => cellOf(value, type)));
    writer.write(new RecordBatch(schema, structOf(schema, columns, chunk.rowCount)));
    if (to.destroyed) break;
    if (to.writableNeedDrain) await Promise.race([once(to, 'drain'), whole]);
  }
  writer.finish();
  await whole;
}

function structOf(schema: Schema, columns: readonly unknown[][], length: number) {
  const children = schema.fields.map((field, index) => vectorFromArray(columns[index], field.type as DataType).data[0]);
  return makeData({ type: new Struct(schema.fields), length, nullCount: 0, children });
}

function arrowType(sqlType: string): Float64 | Bool | Utf8 {
  if (sqlType === 'DOUBLE' || sqlType === 'BIGINT' || sqlType === 'INTEGER') return new Float64();
  return sqlType === 'BOOLEAN' ? new Bool() : new Utf8();
}

function cellOf(value: unknown, type: DataType): unknown {
  if (value === null) return null;
  if (type instanceof Float64) return Number(value);
  return type instanceof Bool || typeof value === 'string' ? value : (value as DuckDBDateValue).toString();
}
