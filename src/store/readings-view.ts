import { columnsOf } from '../records/table.ts';
import { readings } from '../records/tables/readings.ts';
import { identifier, literal, sqlType } from './sql.ts';
import type { Store } from './store.ts';

/**
 * Makes the view `readings` anew: all rows of all segments that still count, every column of the table. Its paths are
 * relative to the store's folder, which the store sets as search path, so that a store may be moved.
 */
export async function refreshReadingsView(store: Store): Promise<void> {
  const segments = await store.rows<{ file: string; columns: string[] }>(
    'SELECT file, columns FROM segments ORDER BY segment_id',
  );
  await store.run(`CREATE OR REPLACE VIEW readings AS ${readingsSelect(segments, await hasSuperseded(store))}`);
}

function readingsSelect(segments: readonly { file: string; columns: string[] }[], superseded: boolean): string {
  const present = new Set(segments.flatMap((segment) => segment.columns));
  const list = columnsOf(readings)
    .map((column) =>
      present.has(column.name) ? identifier(column.name) : `NULL::${sqlType(column)} AS ${identifier(column.name)}`,
    )
    .join(', ');
  if (segments.length === 0) return `SELECT ${list} WHERE false`;
  const files = segments.map((segment) => literal(`readings/${segment.file}`)).join(', ');
  if (!superseded) return `SELECT ${list} FROM read_parquet([${files}], union_by_name = true)`;
  return `SELECT ${list} FROM read_parquet([${files}], union_by_name = true, filename = true) r
    WHERE NOT EXISTS (SELECT 1 FROM superseded_jobs s JOIN segments g USING (segment_id)
      WHERE g.file = parse_filename(r.filename) AND s.job_id = r.job_id)`;
}

async function hasSuperseded(store: Store): Promise<boolean> {
  return (await store.rows('SELECT 1 FROM superseded_jobs LIMIT 1')).length > 0;
}
