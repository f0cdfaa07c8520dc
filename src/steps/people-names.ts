import type { Store } from '../store/store.ts';

/** How people are named in an output: by display name, or by code. */
export type PeopleNames = (technicianId: string | null | undefined) => string;

/**
 * Names for the technicians of a store.
 *
 * @param codes true: `P001`, `P002`, … instead of names
 */
export async function peopleNames(store: Store, codes: boolean): Promise<PeopleNames> {
  await makePersonCodes(store);
  const rows = await store.rows<{ technician_id: string; name: string }>(
    `SELECT technician_id, ${codes ? 'code' : 'coalesce(display_name, technician_id)'} AS name
     FROM temp.person_codes LEFT JOIN people USING (technician_id)`,
  );
  const names = new Map(rows.map((row) => [row.technician_id, row.name]));
  return (technicianId) => names.get(technicianId ?? '') ?? 'nobody named';
}

/** Makes `temp.person_codes`: a code for every technician, by the order of their ids, so the same in every output. */
export async function makePersonCodes(store: Store): Promise<void> {
  await store.run(`CREATE OR REPLACE TEMP TABLE person_codes AS
    SELECT technician_id, 'P' || lpad((row_number() OVER (ORDER BY technician_id))::VARCHAR, 3, '0') AS code FROM (
      SELECT technician_id FROM people UNION SELECT technician_id FROM jobs WHERE technician_id IS NOT NULL
      UNION SELECT technician_id FROM memberships UNION SELECT technician_id FROM trainings WHERE technician_id IS NOT NULL)`);
}
