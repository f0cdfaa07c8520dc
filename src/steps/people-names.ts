import type { Store } from '../store/store.ts';

/** How people are named in an output: by display name, or by code. A crew may be called after who leads it. */
export interface PeopleNames {
  readonly technician: (technicianId: string | null | undefined) => string;
  readonly crew: (crewId: string) => string;
}

/**
 * Names for the technicians and crews of a store.
 *
 * @param codes true: `P001`, `P002`, … instead of names, `C001`, … instead of crews
 */
export async function peopleNames(store: Store, codes: boolean): Promise<PeopleNames> {
  await makePersonCodes(store);
  const people = await store.rows<Person>(
    'SELECT technician_id, code, display_name FROM temp.person_codes LEFT JOIN people USING (technician_id)',
  );
  const names = new Map(
    people.map(({ technician_id: id, code, display_name: name }) => [id, codes ? code : (name ?? id)]),
  );
  const crews = codes ? await crewCodes(store) : undefined;
  return {
    technician: (id) => names.get(id ?? '') ?? 'nobody named',
    crew: (id) => crews?.get(id) ?? id,
  };
}

type Person = {
  readonly technician_id: string;
  readonly code: string;
  readonly display_name: string | null;
};

/** Makes `temp.person_codes`: a code for every technician, by the order of their ids, so the same in every output. */
export async function makePersonCodes(store: Store): Promise<void> {
  await store.run(`CREATE OR REPLACE TEMP TABLE person_codes AS
    SELECT technician_id, 'P' || lpad((row_number() OVER (ORDER BY technician_id))::VARCHAR, 3, '0') AS code FROM (
      SELECT technician_id FROM people UNION SELECT technician_id FROM jobs WHERE technician_id IS NOT NULL
      UNION SELECT technician_id FROM memberships UNION SELECT technician_id FROM trainings WHERE technician_id IS NOT NULL)`);
}

async function crewCodes(store: Store): Promise<ReadonlyMap<string, string>> {
  const rows = await store.rows<{ crew_id: string }>(
    'SELECT crew_id FROM memberships UNION SELECT crew_id FROM jobs WHERE crew_id IS NOT NULL ORDER BY crew_id',
  );
  return new Map(rows.map(({ crew_id: id }, at) => [id, `C${String(at + 1).padStart(3, '0')}`]));
}
