import type { BalanceCell } from '../accounts/booked-ledger.ts';
import type { BalanceCellRow } from '../charts/balance-cell-row.ts';
import { labelText } from './label-text.ts';
import type { Worths } from './worth.ts';

export interface BalanceCellsOptions {
  readonly worths: Pick<Worths, 'of'>;
  /** Labels that tell each from every other. */
  readonly crewLabel: (crewId: string) => string;
  readonly technicianLabel: (technicianId: string) => string;
}

/**
 * The cells of a ledger as the rows of the owner's charts, to the hundredth of a gram, and so with sums that are right to about a gram.
 * Cells in which nothing moved that a chart shows are left out.
 */
export function balanceCells(cells: readonly BalanceCell[], options: BalanceCellsOptions): BalanceCellRow[] {
  const { worths, crewLabel, technicianLabel } = options;
  return cells.flatMap(({ month, refrigerant, crewId, technicianId, balance }) => {
    const { boughtKg, chargedKg, recoveredKg, unexplainedKg, variance } = balance;
    const row = {
      boughtKg: rounded(boughtKg, 5),
      chargedKg: rounded(chargedKg, 5),
      recoveredKg: rounded(recoveredKg, 5),
      unexplainedKg: rounded(unexplainedKg, 5),
      unexplainedVarianceKg2: rounded(variance, 9),
    };
    if (Object.values(row).every((figure) => figure === 0)) return [];
    const { cost, co2eT } = worths.of(refrigerant, chargedKg);
    return [
      {
        month,
        refrigerant: labelText(refrigerant),
        crew: crewId === '' ? '' : crewLabel(crewId),
        technician: technicianId === '' ? '' : technicianLabel(technicianId),
        ...row,
        cost: cost === null ? null : rounded(cost, 2),
        co2eT: co2eT === null ? null : rounded(co2eT, 5),
      },
    ];
  });
}

/** Never −0. */
const rounded = (value: number, places: number): number => Number(value.toFixed(places)) + 0;
