import type { BalanceCell } from '../accounts/booked-ledger.ts';
import type { BalanceCellRow } from '../charts/balance-cell-row.ts';
import { type CoarseRows, coarseRows } from '../pages/coarse-rows.ts';
import { balanceCells } from './balance-cells.ts';
import type { PeopleNames } from './people-names.ts';
import { uniqueLabels } from './unique-labels.ts';
import type { Worths } from './worth.ts';

/** Of more, only so many are told apart; of more rows, months are joined. */
const most = { crews: 40, technicians: 60, rows: 40_000 } as const;

/** The flows of a ledger as the owner's charts read them. */
export function ownerCells(
  cells: readonly BalanceCell[],
  { worths, names }: { readonly worths: Worths; readonly names: PeopleNames },
): CoarseRows<BalanceCellRow> {
  const crews = mostMoved(cells, ({ crewId }) => crewId, most.crews, names.crew);
  const technicians = mostMoved(cells, ({ technicianId }) => technicianId, most.technicians, names.technician);
  const rows = balanceCells(cells, {
    worths,
    crewLabel: (id) => crews.get(id) ?? '',
    technicianLabel: (id) => technicians.get(id) ?? '',
  });
  return coarseRows(
    rows,
    ['boughtKg', 'chargedKg', 'recoveredKg', 'unexplainedKg', 'unexplainedVarianceKg2', 'cost', 'co2eT'],
    most.rows,
  );
}

/** Those who charged and recovered the most, by id, with what each is called. */
function mostMoved(
  cells: readonly BalanceCell[],
  idOf: (cell: BalanceCell) => string,
  count: number,
  nameOf: (id: string) => string,
): ReadonlyMap<string, string> {
  const moved = new Map<string, number>();
  for (const cell of cells) {
    const { chargedKg, recoveredKg } = cell.balance;
    moved.set(idOf(cell), (moved.get(idOf(cell)) ?? 0) + chargedKg + recoveredKg);
  }
  const ids = [...moved]
    .filter(([id]) => id !== '')
    .sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1))
    .slice(0, count)
    .map(([id]) => id);
  return uniqueLabels(ids, nameOf);
}
