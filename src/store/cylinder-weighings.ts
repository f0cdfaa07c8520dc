import { accountedRefrigerant } from '../accounts/accounted-refrigerant.ts';
import type { CylinderRecord, CylinderWithWeighings, RecordedWeighing } from '../accounts/cylinder-record.ts';
import { type ColumnRows, readColumns } from './read-columns.ts';
import { query } from './sql.ts';
import type { Store } from './store.ts';

/** Columns of numbers in `cylinder-weighings.sql`. */
const numberColumns = 20;

/**
 * Cylinders one by one, each with its weighings in the order of time; those that name no cylinder come last, together. No other statement
 * may run on the store until the last is read.
 */
export async function* readCylinders(store: Store): AsyncGenerator<CylinderWithWeighings> {
  const technicians = await numbered(store, 'technician');
  const crews = await numbered(store, 'crew');
  await store.run(query('account-weighings'));
  let current:
    | { cylinderId: string | null; cylinder: CylinderRecord | null; weighings: RecordedWeighing[] }
    | undefined;
  const result = await store.connection.stream(query('cylinder-weighings'));
  for await (const rows of readColumns(result, numberColumns)) {
    const [cylinderIds] = rows.texts;
    for (let row = 0; row < rows.count; row += 1) {
      const cylinderId = cylinderIds[row];
      if (current === undefined || current.cylinderId !== cylinderId) {
        if (current !== undefined) yield current;
        current = { cylinderId, cylinder: cylinderOf(rows, row), weighings: [] };
      }
      if (rows.numbers[9][row] === 1) current.weighings.push(weighingOf(rows, row, technicians, crews));
    }
  }
  if (current !== undefined) yield current;
}

/** Makes a table that numbers technicians or crews, and gives their ids by number. */
async function numbered(store: Store, who: 'technician' | 'crew'): Promise<readonly string[]> {
  await store.run(`CREATE OR REPLACE TEMP TABLE account_${who}s AS
    SELECT id, (row_number() OVER (ORDER BY id) - 1)::INTEGER AS number
    FROM (SELECT DISTINCT ${who}_id AS id FROM jobs WHERE ${who}_id IS NOT NULL)`);
  const rows = await store.rows<{ id: string }>(`SELECT id FROM temp.account_${who}s ORDER BY number`);
  return rows.map(({ id }) => id);
}

const known = (value: number): number | null => (Number.isNaN(value) ? null : value);

function cylinderOf({ numbers, texts }: ColumnRows, row: number): CylinderRecord | null {
  const [isKnown, isRecovery, acquiredDay, netKg, cost, closedDay, closingKg, tareKg, capacityKg] = numbers;
  const [cylinderIds, refrigerants] = texts;
  if (isKnown[row] !== 1) return null;
  return {
    cylinderId: cylinderIds[row] ?? '',
    refrigerant: accountedRefrigerant(refrigerants[row]) ?? null,
    writtenRefrigerant: refrigerants[row],
    kind: isRecovery[row] === 1 ? 'recovery' : 'supply',
    acquiredDay: known(acquiredDay[row]),
    netKg: known(netKg[row]),
    cost: known(cost[row]),
    closedDay: known(closedDay[row]),
    closingKg: known(closingKg[row]),
    tareKg: known(tareKg[row]),
    capacityKg: known(capacityKg[row]),
  };
}

function weighingOf(
  { numbers, texts }: ColumnRows,
  row: number,
  technicians: readonly string[],
  crews: readonly string[],
): RecordedWeighing {
  const [direction, day, atMs, startKg, endKg, stepKg, otherKg, isSeries, technician, crew] = numbers.slice(10);
  const [, , refrigerants, weighingIds, jobIds, siteIds] = texts;
  return {
    weighingId: weighingIds[row] ?? '',
    writtenRefrigerant: refrigerants[row],
    direction: direction[row] === 1 ? 'in' : direction[row] === 2 ? 'out' : null,
    day: known(day[row]),
    atMs: known(atMs[row]),
    startKg: known(startKg[row]),
    endKg: known(endKg[row]),
    stepKg: known(stepKg[row]),
    otherKg: known(otherKg[row]),
    otherFrom: isSeries[row] === 1 ? 'series' : 'record',
    jobId: jobIds[row],
    siteId: siteIds[row],
    technicianId: technicians[technician[row]] ?? null,
    crewId: crews[crew[row]] ?? null,
  };
}
