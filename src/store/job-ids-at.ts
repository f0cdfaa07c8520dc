import type { Store } from './store.ts';

/** The ids of jobs by their places among those of the fleet; `readFleetJobs` comes first. */
export async function jobIdsAt(store: Store, places: readonly number[]): Promise<ReadonlyMap<number, string>> {
  await store.fillRows(
    'asked_places',
    { place: 'BIGINT' },
    [...new Set(places)].map((place) => [place]),
  );
  const rows = await store.rows<{ place: number; job_id: string }>(
    'SELECT place, job_id FROM temp.asked_places JOIN temp.fleet_jobs f ON f.rowid = place',
  );
  return new Map(rows.map(({ place, job_id: id }) => [place, id]));
}
