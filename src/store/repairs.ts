import { dayOf } from '../numerics/calendar-day.ts';
import type { RepairRecord } from '../accounts/repair-record.ts';
import type { Repair } from '../records/tables/repairs.ts';
import type { Store } from './store.ts';

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
