import { cylinderAccount } from '../../src/accounts/cylinder-account.ts';
import { dayOf } from '../../src/numerics/calendar-day.ts';
import type { CylinderRecord, CylinderWeighing, RecordedWeighing } from '../../src/accounts/cylinder-record.ts';
import type { BookedLedger } from '../../src/accounts/booked-ledger.ts';
import { Ledger } from '../../src/accounts/ledger.ts';
import { usableWeighing } from '../../src/accounts/usable-weighing.ts';

/** A cylinder of 10 kg of R-410A that weighs 5 kg empty, bought on 2026-01-05, but for what is changed. */
export function aCylinder(changed: Partial<CylinderRecord> = {}): CylinderRecord {
  return {
    cylinderId: 'c1',
    refrigerant: 'R-410A',
    writtenRefrigerant: 'R-410A',
    kind: 'supply',
    acquiredDay: dayOf('2026-01-05'),
    netKg: 10,
    cost: null,
    closedDay: null,
    closingKg: null,
    tareKg: 5,
    capacityKg: null,
    ...changed,
  };
}

/** A weighing on a day at noon, by a scale of 10 g: what it showed before and after. */
export function aWeighing(
  on: string,
  startKg: number | null,
  endKg: number | null,
  changed: Partial<RecordedWeighing> = {},
): RecordedWeighing {
  const day = dayOf(on);
  return {
    weighingId: `w ${on}`,
    writtenRefrigerant: null,
    direction: (startKg ?? 0) >= (endKg ?? 0) ? 'in' : 'out',
    day,
    atMs: (day + 0.5) * 86_400_000,
    startKg,
    endKg,
    stepKg: 0.01,
    otherKg: null,
    otherFrom: 'record',
    jobId: null,
    siteId: 'site',
    technicianId: 'tech',
    crewId: 'crew',
    ...changed,
  };
}

/** The same as it is booked. */
export function usable(recorded: RecordedWeighing): CylinderWeighing {
  const weighing = usableWeighing(recorded, 0.01);
  if (typeof weighing === 'string') throw new Error(weighing);
  return weighing;
}

/** A cylinder's account by its weighings. */
export function accountOf(cylinder: CylinderRecord, weighings: readonly RecordedWeighing[]) {
  return cylinderAccount(cylinder, weighings.map(usable));
}

/** A cylinder with its weighings. */
export type DraftCylinder = readonly [CylinderRecord, readonly RecordedWeighing[]];

/** An empty ledger over 2026, or over other days. */
export function aLedger(from = '2026-01-01', to = '2026-12-31'): Ledger {
  return new Ledger({ fromDay: dayOf(from), toDay: dayOf(to) }, { cells: true });
}

/** The ledger of cylinders over 2026, or over other days. */
export function ledgerOf(
  cylinders: readonly DraftCylinder[],
  { from, to }: { readonly from?: string; readonly to?: string } = {},
): BookedLedger {
  const ledger = aLedger(from, to);
  for (const [cylinder, weighings] of cylinders)
    ledger.add({ cylinderId: cylinder.cylinderId, cylinder, weighings: inOrder(weighings) });
  return ledger.close();
}

/** As a store hands them: by time, those without one last. */
export function inOrder(weighings: readonly RecordedWeighing[]): RecordedWeighing[] {
  return weighings.toSorted((a, b) => (a.atMs ?? Number.MAX_VALUE) - (b.atMs ?? Number.MAX_VALUE));
}

/** Why what is kept apart is: reason, what, id, mass. */
export function apartOf({ apart }: BookedLedger): string[] {
  return apart.map(({ reason, what, id, kg }) => `${reason}: ${what} ${id}, ${kg === null ? '–' : kg.toFixed(2)} kg`);
}
