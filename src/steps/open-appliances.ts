import { type ApplianceAccount, applianceAccount } from '../accounts/appliance-account.ts';
import type { ApplianceRecord } from '../accounts/appliance-record.ts';
import type { ApartEntry } from '../accounts/booked-ledger.ts';
import type { RepairRecord } from '../accounts/repair-record.ts';
import type { Jurisdiction } from '../accounts/rules/rule-set.ts';
import { readInspections, readRepairs } from '../store/repairs.ts';
import { readAppliances } from '../store/appliance-additions.ts';
import type { Store } from '../store/store.ts';

/** An appliance with its account, repairs and inspections. */
export interface OpenAppliance {
  readonly account: ApplianceAccount;
  readonly repairs: readonly RepairRecord[];
  readonly inspectionDays: readonly number[];
}

export interface OpenAppliancesOptions {
  /** The day on which rules are asked, since 1970; what came later is left out. */
  readonly today: number;
  /** Whose rules apply to appliances whose record does not say. */
  readonly jurisdiction?: Jurisdiction | undefined;
  /** Only this one. */
  readonly only?: string | undefined;
  readonly onProgress?: ((done: number, of: number, note: string) => void) | undefined;
}

/**
 * Goes through all appliances of a store, one at a time.
 *
 * @param onAppliance called with each
 * @returns what cannot be accounted
 */
export async function eachAppliance(
  store: Store,
  { today, jurisdiction, only, onProgress = () => undefined }: OpenAppliancesOptions,
  onAppliance: (appliance: OpenAppliance) => void,
): Promise<ApartEntry[]> {
  const repairs = await readRepairs(store);
  const inspections = await readInspections(store);
  const [{ count }] = await store.rows<{ count: number }>('SELECT count(*) AS count FROM appliances');
  const apart: ApartEntry[] = [];
  let done = 0;
  for await (const { systemId, appliance, additions } of readAppliances(store)) {
    if (only !== undefined && systemId !== only) continue;
    if (appliance === null) {
      // What was put in for the first time tells of no leak, whoever keeps no record of the system.
      const reason = systemId === null ? 'no-system' : 'unknown-appliance';
      for (const { source, chargedKg, day } of additions.filter(({ purpose }) => purpose === 'leak'))
        apart.push({ ...namedSource(source), reason, refrigerant: null, kg: chargedKg, day });
      continue;
    }
    const own = repairs.get(appliance.systemId) ?? [];
    const record: ApplianceRecord = { ...appliance, jurisdiction: appliance.jurisdiction ?? jurisdiction ?? null };
    const account = applianceAccount(record, additions, own, today);
    const { refrigerant, writtenRefrigerant, fullChargeKg } = record;
    for (const { source, reason, kg, day } of account.apart)
      apart.push({ ...namedSource(source), reason, refrigerant: writtenRefrigerant, kg, day });
    const about = {
      what: 'appliance' as const,
      id: record.systemId,
      refrigerant: writtenRefrigerant,
      kg: null,
      day: null,
    };
    if (refrigerant === null)
      apart.push({ ...about, reason: writtenRefrigerant === null ? 'no-refrigerant' : 'unknown-refrigerant' });
    if (fullChargeKg === null) apart.push({ ...about, reason: 'no-full-charge' });
    onAppliance({ account, repairs: own, inspectionDays: inspections.get(record.systemId) ?? [] });
    done += 1;
    if (done % 5000 === 0) onProgress(done, count, 'appliances');
  }
  return apart;
}

function namedSource(source: string): Pick<ApartEntry, 'what' | 'id'> {
  const [what, ...id] = source.split(' ');
  return { what: what as ApartEntry['what'], id: id.join(' ') };
}
