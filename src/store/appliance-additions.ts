import { accountedRefrigerant } from '../accounts/accounted-refrigerant.ts';
import { type ApplianceRecord, fullChargeBasis, jurisdictionOf } from '../accounts/appliance-record.ts';
import type { Addition } from '../accounts/additions.ts';
import type { ApplianceWithAdditions, RecordedAddition } from '../accounts/appliance-account.ts';
import { query } from './sql.ts';
import type { Store } from './store.ts';

type Cells = readonly (string | number | boolean | null)[];

/**
 * Appliances one by one, each with its additions in the order of time; those that name no system come last, together. No other
 * statement may run on the store until the last is read.
 */
export async function* readAppliances(store: Store): AsyncGenerator<ApplianceWithAdditions> {
  await store.run(query('system-additions'));
  let current:
    | { systemId: string | null; appliance: ApplianceRecord | null; additions: RecordedAddition[] }
    | undefined;
  const result = await store.connection.stream(query('appliance-additions'));
  for await (const rows of result.yieldRowsJs()) {
    for (const cells of rows as unknown as Cells[]) {
      const systemId = cells[0] as string | null;
      if (current === undefined || current.systemId !== systemId) {
        if (current !== undefined) yield current;
        current = { systemId, appliance: cells[1] === true ? applianceOf(cells) : null, additions: [] };
      }
      if (cells[12] !== null) current.additions.push(additionOf(cells));
    }
  }
  if (current !== undefined) yield current;
}

function applianceOf(cells: Cells): ApplianceRecord {
  const [
    systemId,
    ,
    siteId,
    written,
    fullChargeKg,
    basis,
    sector,
    jurisdiction,
    installed,
    retired,
    hermetic,
    detection,
  ] = cells;
  return {
    systemId: systemId as string,
    siteId: siteId as string | null,
    refrigerant: accountedRefrigerant(written as string | null) ?? null,
    writtenRefrigerant: written as string | null,
    // A full charge of nothing is none.
    fullChargeKg: fullChargeKg === 0 ? null : (fullChargeKg as number | null),
    fullChargeBasis: fullChargeBasis(basis as string | null),
    sector: sector as ApplianceRecord['sector'],
    jurisdiction: jurisdictionOf(jurisdiction as string | null),
    installedDay: installed as number | null,
    retiredDay: retired as number | null,
    isHermetic: hermetic as boolean | null,
    hasDetection: detection as boolean | null,
  };
}

function additionOf(cells: Cells): RecordedAddition {
  const [source, day, chargedKg, recoveredKg, purpose, leakId, wasEmpty] = cells.slice(12);
  return {
    source: source as string,
    day: day as number | null,
    chargedKg: chargedKg as number | null,
    recoveredKg: recoveredKg as number | null,
    purpose: purpose as Addition['purpose'],
    leakId: leakId as string | null,
    wasEmpty: wasEmpty === true,
  };
}
