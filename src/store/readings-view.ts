import { join } from 'node:path';
import type { DuckDBConnection } from '@duckdb/node-api';
import { columnsOf } from '../records/table.ts';
import { readings } from '../records/tables/readings.ts';
import { columnList, identifier, parquetFiles, sqlType } from './sql.ts';

/**
 * Makes the connection's view `readings` anew: all rows of all segments that still count, every column of the table.
 *
 * The view belongs to the connection, not to the catalogue: its paths are whole, so that a store may be moved and no
 * folder that happens to be the working one is taken for it.
 */
export async function refreshReadingsView(connection: DuckDBConnection, segmentsFolder: string): Promise<void> {
  const listed = await connection.runAndReadAll('SELECT file, columns FROM segments ORDER BY segment_id');
  const superseded = await connection.runAndReadAll('SELECT 1 FROM superseded_jobs LIMIT 1');
  const segments = listed.getRowObjectsJS() as { file: string; columns: string[] }[];
  const select = readingsSelect(segments, segmentsFolder, superseded.currentRowCount > 0);
  await connection.run(`CREATE OR REPLACE TEMP VIEW readings AS ${select}`);
}

/** A select over Parquet files of readings that gives every column of the table, absent ones as empty, and the file's name. */
export function readingsFrom(parts: readonly { path: string; columns: readonly string[] }[]): string {
  const present = new Set(parts.flatMap((part) => part.columns));
  const list = columnsOf(readings).map((column) =>
    present.has(column.name) ? identifier(column.name) : `NULL::${sqlType(column)} AS ${identifier(column.name)}`,
  );
  if (parts.length === 0) return `SELECT ${list.join(', ')}, NULL::VARCHAR AS filename WHERE false`;
  const files = parquetFiles(
    parts.map((part) => part.path),
    'union_by_name = true',
    'filename = true',
  );
  return `SELECT ${list.join(', ')}, filename FROM ${files}`;
}

function readingsSelect(
  segments: readonly { file: string; columns: string[] }[],
  folder: string,
  superseded: boolean,
): string {
  const rows = readingsFrom(segments.map(({ file, columns }) => ({ path: join(folder, file), columns })));
  const hidden = superseded
    ? `WHERE NOT EXISTS (SELECT 1 FROM superseded_jobs s JOIN segments g USING (segment_id)
      WHERE g.file = parse_filename(r.filename) AND s.job_id = r.job_id)`
    : '';
  return `SELECT ${columnList(readings)} FROM (${rows}) r ${hidden}`;
}
