import type { Store } from './store.ts';

/** First and last day on which anything of the refrigerant's accounts is on record, ISO 8601; null where nothing is. */
export async function accountDays(store: Store): Promise<{ first: string; last: string } | null> {
  // Days of work first: a cylinder's day that is mistyped by a century would make that the end of the record.
  for (const days of [
    `SELECT left("at", 10) AS day FROM weighings UNION ALL SELECT left(started_at, 10) FROM jobs
     UNION ALL SELECT left(reported_at, 10) FROM callbacks UNION ALL SELECT inspected_on::VARCHAR FROM inspections`,
    'SELECT acquired_on::VARCHAR AS day FROM cylinders',
  ]) {
    const [{ first, last }] = await store.rows<{ first: string | null; last: string | null }>(
      `SELECT min(day) AS first, max(day) AS last FROM (${days})`,
    );
    if (first !== null && last !== null) return { first: await earliest(store, first), last };
  }
  return null;
}

/** That day, or the one on which a cylinder came before it. */
async function earliest(store: Store, day: string): Promise<string> {
  const [{ first }] = await store.rows<{ first: string }>(
    'SELECT min(least(acquired_on, $1::DATE))::VARCHAR AS first FROM (SELECT acquired_on FROM cylinders UNION ALL SELECT $1::DATE)',
    [day],
  );
  return first;
}
