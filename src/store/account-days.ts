import type { Store } from './store.ts';

/** First and last day on which anything of the refrigerant's accounts is on record, ISO 8601; null where nothing is. */
export async function accountDays(store: Store): Promise<{ first: string; last: string } | null> {
  const [{ first, last }] = await store.rows<{ first: string | null; last: string | null }>(
    `SELECT min(day) AS first, max(day) AS last FROM (
       SELECT left("at", 10) AS day FROM weighings UNION ALL SELECT left(started_at, 10) FROM jobs
       UNION ALL SELECT acquired_on::VARCHAR FROM cylinders UNION ALL SELECT closed_on::VARCHAR FROM cylinders
       UNION ALL SELECT left(reported_at, 10) FROM callbacks UNION ALL SELECT inspected_on::VARCHAR FROM inspections)`,
  );
  return first === null || last === null ? null : { first, last };
}
