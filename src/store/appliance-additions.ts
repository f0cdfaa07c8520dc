import { accountedRefrigerant } from '../accounts/accounted-refrigerant.ts';
import type { Addition } from '../accounts/additions.ts';
import type { ApplianceWithAdditions, RecordedAddition } from '../accounts/appliance-account.ts';
import { type ApplianceRecord, fullChargeBasis, jurisdictionOf } from '../accounts/appliance-record.ts';
import { type ColumnRows, readColumns } from './read-columns.ts';
import { query } from './sql.ts';
import type { Store } from './store.ts';

/** Columns of numbers in `appliance-additions.sql`, and its purposes by their number. */
const numberColumns = 12;
const purposes: readonly Addition['purpose'][] = ['leak', 'install', 'retrofit', 'seasonal'];

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
  for await (const rows of readColumns(result, numberColumns)) {
    const [systemIds] = rows.texts;
    for (let row = 0; row < rows.count; row += 1) {
      const systemId = systemIds[row];
      if (current === undefined || current.systemId !== systemId) {
        if (current !== undefined) yield current;
        current = { systemId, appliance: applianceOf(rows, row), additions: [] };
      }
      if (rows.numbers[6][row] === 1) current.additions.push(additionOf(rows, row));
    }
  }
  if (current !== undefined) yield current;
}

const known = (value: number): number | null => (Number.isNaN(value) ? null : value);
const flag = (value: number): boolean | null => (Number.isNaN(value) ? null : value === 1);

function applianceOf({ numbers, texts }: ColumnRows, row: number): ApplianceRecord | null {
  const [isKnown, fullChargeKg, installedDay, retiredDay, hermetic, detection] = numbers;
  const [systemIds, siteIds, refrigerants, bases, sectors, jurisdictions] = texts;
  if (isKnown[row] !== 1) return null;
  return {
    systemId: systemIds[row] ?? '',
    siteId: siteIds[row],
    refrigerant: accountedRefrigerant(refrigerants[row]) ?? null,
    writtenRefrigerant: refrigerants[row],
    // A full charge of nothing is none.
    fullChargeKg: fullChargeKg[row] === 0 ? null : known(fullChargeKg[row]),
    fullChargeBasis: fullChargeBasis(bases[row]),
    sector: sectors[row] as ApplianceRecord['sector'],
    jurisdiction: jurisdictionOf(jurisdictions[row]),
    installedDay: known(installedDay[row]),
    retiredDay: known(retiredDay[row]),
    isHermetic: flag(hermetic[row]),
    hasDetection: flag(detection[row]),
  };
}

function additionOf({ numbers, texts }: ColumnRows, row: number): RecordedAddition {
  const [day, chargedKg, recoveredKg, purpose, wasEmpty] = numbers.slice(7);
  const [sources, leakIds] = texts.slice(6);
  return {
    source: sources[row] ?? '',
    day: known(day[row]),
    chargedKg: known(chargedKg[row]),
    recoveredKg: known(recoveredKg[row]),
    purpose: purposes[purpose[row] - 1] ?? 'leak',
    leakId: leakIds[row],
    wasEmpty: wasEmpty[row] === 1,
  };
}
