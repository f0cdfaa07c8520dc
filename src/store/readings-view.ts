import { join } from 'node:path';
import type { DuckDBConnection } from '@duckdb/node-api';
import { columnsOf } from '../records/table.ts';
import { readings } from '../records/tables/readings.ts';
import { identifier, literal, sqlType } from './sql.ts';

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

function readingsSelect(
  segments: readonly { file: string; columns: string[] }[],
  folder: string,
  superseded: boolean,
): string {
  const present = new Set(segments.flatMap((segment) => segment.columns));
  const list = columnsOf(readings)
    .map((column) =>
      present.has(column.name) ? identifier(column.name) : `NULL::${sqlType(column)} AS ${identifier(column.name)}`,
    )
    .join(', ');
  if (segments.length === 0) return `SELECT ${list} WHERE false`;
  const files = segments.map((segment) => literal(join(folder, segment.file))).join(', ');
  if (!superseded) return `SELECT ${list} FROM read_parquet([${files}], union_by_name = true)`;
  return `SELECT ${list} FROM read_parquet([${files}], union_by_name = true, filename = true) r
    WHERE NOT EXISTS (SELECT 1 FROM superseded_jobs s JOIN segments g USING (segment_id)
      WHERE g.file = parse_filename(r.filename) AND s.job_id = r.job_id)`;
}
