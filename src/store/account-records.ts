import { accountedRefrigerant } from '../accounts/accounted-refrigerant.ts';
import { dayOf } from '../accounts/calendar-day.ts';
import type { RepairRecord } from '../accounts/repair-record.ts';
import type { Repair } from '../records/tables/repairs.ts';
import { query } from './sql.ts';
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

/** What a kilogram of each refrigerant cost, over all cylinders with mass and cost. */
export async function refrigerantPrices(store: Store): Promise<ReadonlyMap<string, number>> {
  const rows = await store.rows<{ refrigerant: string; cost: number; kg: number }>(
    `SELECT refrigerant, sum(cost) AS cost, sum(net_kg) AS kg FROM cylinders
     WHERE cost > 0 AND net_kg > 0 AND refrigerant IS NOT NULL GROUP BY refrigerant`,
  );
  const sums = new Map<string, { cost: number; kg: number }>();
  for (const { refrigerant: written, cost, kg } of rows) {
    const refrigerant = accountedRefrigerant(written);
    if (refrigerant === undefined) continue;
    const sum = sums.get(refrigerant) ?? { cost: 0, kg: 0 };
    sums.set(refrigerant, { cost: sum.cost + cost, kg: sum.kg + kg });
  }
  return new Map([...sums].map(([refrigerant, { cost, kg }]) => [refrigerant, cost / kg]));
}

const dayOrNull = (iso: string | null): number | null => (iso === null ? null : dayOf(iso));

/** Repairs by system, in the order of their repair. */
export async function readRepairs(store: Store): Promise<ReadonlyMap<string, RepairRecord[]>> {
  const rows = await store.rows<RepairRow & Record<string, unknown>>(
    `SELECT * REPLACE (leak_found_on::VARCHAR AS leak_found_on, repaired_on::VARCHAR AS repaired_on,
       initial_verified_on::VARCHAR AS initial_verified_on, followup_verified_on::VARCHAR AS followup_verified_on,
       normal_operation_on::VARCHAR AS normal_operation_on)
     FROM repairs WHERE system_id IS NOT NULL ORDER BY system_id, repaired_on, repair_id`,
  );
  const groups = Map.groupBy(rows, (row) => row.system_id ?? '');
  return new Map([...groups].map(([system, own]) => [system, own.map(repairOf)]));
}

type RepairRow = { readonly [Column in keyof Required<Repair>]: Required<Repair>[Column] | null };

function repairOf(row: RepairRow): RepairRecord {
  return {
    leakId: row.leak_id,
    foundDay: dayOrNull(row.leak_found_on),
    repairedDay: dayOrNull(row.repaired_on),
    initialDay: dayOrNull(row.initial_verified_on),
    followUpDay: dayOrNull(row.followup_verified_on),
    operationDay: dayOrNull(row.normal_operation_on),
    isShutdown: row.shutdown,
    cost: row.cost,
  };
}

/** Days of inspections by system, since 1970. */
export async function readInspections(store: Store): Promise<ReadonlyMap<string, number[]>> {
  const rows = await store.rows<{ system_id: string; inspected_on: string }>(
    'SELECT system_id, inspected_on::VARCHAR AS inspected_on FROM inspections ORDER BY system_id, inspected_on',
  );
  const days = new Map<string, number[]>();
  for (const { system_id: system, inspected_on: on } of rows)
    days.set(system, [...(days.get(system) ?? []), dayOf(on)]);
  return days;
}

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
