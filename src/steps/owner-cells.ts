import type { CellNames } from '../accounts/balance-cells.ts';
import type { BalanceCell } from '../accounts/booked-ledger.ts';
import type { OwnerCells } from '../pages/owner-data.ts';
import { coarseRows } from '../pages/coarse-rows.ts';
import { query } from '../store/sql.ts';
import type { Store } from '../store/store.ts';
import { balanceCells } from './balance-cells.ts';
import type { PeopleNames } from './people-names.ts';
import { uniqueLabels } from './unique-labels.ts';
import type { Worths } from './worth.ts';

/** Of more rows, months are joined. */
const mostRows = 40_000;

/** Who is told apart in the owner's charts, of how many: those with the most jobs. */
export interface ToldApart extends CellNames {
  readonly crews: number;
  readonly technicians: number;
}

/**
 * Finds who is told apart in the owner's charts; `temp.job_crews` is made for it.
 *
 * @param most of each
 */
export async function toldApart(store: Store, most: { crews: number; technicians: number }): Promise<ToldApart> {
  await store.run(query('job-crews'));
  const ids = async (select: string, count: number): Promise<{ ids: Set<string>; of: number }> => {
    const rows = await store.rows<{ id: string; of: number }>(
      `SELECT id, count(*) OVER () AS of FROM (${select}) WHERE id IS NOT NULL GROUP BY id ORDER BY count(*) DESC, id LIMIT ${count}`,
    );
    return { ids: new Set(rows.map(({ id }) => id)), of: rows[0]?.of ?? 0 };
  };
  const crews = await ids('SELECT crew_id AS id FROM temp.job_crews', most.crews);
  const technicians = await ids('SELECT technician_id AS id FROM jobs', most.technicians);
  return { crewIds: crews.ids, technicianIds: technicians.ids, crews: crews.of, technicians: technicians.of };
}

/** The flows of a ledger as the owner's charts read them. */
export function ownerCells(
  cells: readonly BalanceCell[],
  told: ToldApart,
  { worths, names }: { readonly worths: Worths; readonly names: PeopleNames },
): OwnerCells {
  const crews = uniqueLabels([...told.crewIds], names.crew);
  const technicians = uniqueLabels([...told.technicianIds], names.technician);
  const rows = balanceCells(cells, {
    worths,
    crewLabel: (id) => crews.get(id) ?? '',
    technicianLabel: (id) => technicians.get(id) ?? '',
  });
  const sums = [
    'boughtKg',
    'chargedKg',
    'recoveredKg',
    'unexplainedKg',
    'unexplainedVarianceKg2',
    'cost',
    'co2eT',
  ] as const;
  return { ...coarseRows(rows, sums, mostRows), crews: told.crews, technicians: told.technicians };
}
