import type { Store } from '../../store/store.ts';

/** Finds whom a text names though people should go by code; undefined where it names nobody. */
export type ShownPeople = (text: string) => string | undefined;

/**
 * Looks for the names and ids of a store's people and crews. One that is short, or digits alone, is looked for as a whole text only: it would be
 * found within any figure. What free text says of others is not known.
 */
export async function shownPeople(store: Store): Promise<ShownPeople> {
  const rows = await store.rows<{ name: string }>(
    `SELECT DISTINCT name FROM (
       SELECT display_name AS name FROM people UNION ALL SELECT technician_id FROM people UNION ALL SELECT technician_id FROM jobs
       UNION ALL SELECT crew_id FROM jobs UNION ALL SELECT technician_id FROM memberships UNION ALL SELECT crew_id FROM memberships
       UNION ALL SELECT technician_id FROM trainings UNION ALL SELECT reviewed_by FROM reviews)
     WHERE trim(name) <> '' AND NOT regexp_full_match(name, '[PC][0-9]{3,}') ORDER BY ALL`,
  );
  const names = rows.map(({ name }) => name.trim().toLowerCase());
  const whole = new Set(names);
  const within = names.filter((name) => name.length > 2 && /\p{L}/u.test(name));
  return (text) => {
    const said = text.toLowerCase();
    if (whole.has(said.trim())) return said.trim();
    return within.find((name) => isWithin(said, name));
  };
}

/** Whether a name stands in a text by itself, not within a longer word. */
function isWithin(text: string, name: string): boolean {
  for (let at = text.indexOf(name); at >= 0; at = text.indexOf(name, at + 1)) {
    const around = `${text[at - 1] ?? ' '}${text[at + name.length] ?? ' '}`;
    if (!/[\p{L}\p{N}]/u.test(around)) return true;
  }
  return false;
}
