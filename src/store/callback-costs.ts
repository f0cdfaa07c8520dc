import { query } from './sql.ts';
import type { Store } from './store.ts';

/** A callback's cost, and how many days after its work it came. */
export type CallbackCost = {
  readonly reason: string | null;
  readonly cause_found: string | null;
  readonly refrigerant_added_kg: number | null;
  readonly cost: number | null;
  readonly days_after: number | null;
};

/** All callbacks reported over some days with their costs. */
export async function readCallbackCosts(store: Store, from: string, to: string): Promise<CallbackCost[]> {
  await store.run(query('circuit-work'));
  await store.run(query('traced-callbacks'));
  return store.rows<CallbackCost>(
    `SELECT reason, cause_found, refrigerant_added_kg, cost, days_after FROM temp.traced_callbacks
     WHERE left(reported_at, 10) BETWEEN $1 AND $2`,
    [from, to],
  );
}
