import { accountedRefrigerant } from '../accounts/accounted-refrigerant.ts';
import type { CylinderRecord, CylinderWithWeighings, RecordedWeighing } from '../accounts/cylinder-record.ts';
import { query } from './sql.ts';
import type { Store } from './store.ts';

type Cells = readonly (string | number | boolean | null)[];

/**
 * Cylinders one by one, each with its weighings in the order of time; those that name no cylinder come last, together. No other statement
 * may run on the store until the last is read.
 */
export async function* readCylinders(store: Store): AsyncGenerator<CylinderWithWeighings> {
  await store.run(query('account-weighings'));
  let current:
    | { cylinderId: string | null; cylinder: CylinderRecord | null; weighings: RecordedWeighing[] }
    | undefined;
  const result = await store.connection.stream(query('cylinder-weighings'));
  for await (const rows of result.yieldRowsJs()) {
    for (const cells of rows as unknown as Cells[]) {
      const cylinderId = cells[0] as string | null;
      if (current === undefined || current.cylinderId !== cylinderId) {
        if (current !== undefined) yield current;
        current = { cylinderId, cylinder: cells[1] === true ? cylinderOf(cells) : null, weighings: [] };
      }
      if (cells[11] !== null) current.weighings.push(weighingOf(cells));
    }
  }
  if (current !== undefined) yield current;
}

function cylinderOf(cells: Cells): CylinderRecord {
  const [cylinderId, , written, kind, acquired, netKg, cost, closed, closingKg, tareKg, capacityKg] = cells;
  return {
    cylinderId: cylinderId as string,
    refrigerant: accountedRefrigerant(written as string | null) ?? null,
    writtenRefrigerant: written as string | null,
    kind: kind === 'recovery' ? 'recovery' : 'supply',
    acquiredDay: acquired as number | null,
    netKg: netKg as number | null,
    cost: cost as number | null,
    closedDay: closed as number | null,
    closingKg: closingKg as number | null,
    tareKg: tareKg as number | null,
    capacityKg: capacityKg as number | null,
  };
}

function weighingOf(cells: Cells): RecordedWeighing {
  const [weighingId, written, direction, day, atMs, startKg, endKg, stepKg, otherKg, otherFrom, ...who] =
    cells.slice(11);
  const [jobId, systemId, siteId, technicianId, crewId] = who as (string | null)[];
  return {
    weighingId: weighingId as string,
    writtenRefrigerant: written as string | null,
    direction: direction as RecordedWeighing['direction'],
    day: day as number | null,
    atMs: atMs as number | null,
    startKg: startKg as number | null,
    endKg: endKg as number | null,
    stepKg: stepKg as number | null,
    otherKg: otherKg as number | null,
    otherFrom: otherFrom as RecordedWeighing['otherFrom'],
    jobId,
    systemId,
    siteId,
    technicianId,
    crewId,
  };
}
