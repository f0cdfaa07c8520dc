import { columnsOf } from '../records/table.ts';
import { readings } from '../records/tables/readings.ts';
import { PlacedReadings } from './placed-readings.ts';
import { identifier, query, rowsDigest, sqlType } from './sql.ts';
import type { Store } from './store.ts';

/**
 * Notes in `temp.job_states` on what the judgement of each job in `temp.wanted_jobs` rests: its revision, and a digest of its records and readings.
 * Equal digests mean equal facts, in whichever store, whatever files and maps they came by; so all of these jobs' readings are read.
 *
 * @throws DryholdError `file-unreadable` where a segment is damaged
 */
export async function noteJobStates(store: Store): Promise<void> {
  const placed = await PlacedReadings.of(store, 'wanted_jobs');
  const present = new Set(placed.columns.map(({ name }) => name));
  // A column that no segment has counts as one that is empty in all.
  const cells = columnsOf(readings).map((column) =>
    present.has(column.name) ? identifier(column.name) : `NULL::${sqlType(column)}`,
  );
  await placed.run(`CREATE OR REPLACE TEMP TABLE reading_sums AS
    SELECT job_id, count(*) AS rows, ${rowsDigest(cells)} AS mixed FROM (${placed.select}) GROUP BY job_id`);
  await store.run(query('job-states'));
}
