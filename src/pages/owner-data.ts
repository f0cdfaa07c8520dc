import type { UnitSystem } from '../units/display.ts';
import type { BalanceCellRow } from '../charts/balance-cell-row.ts';
import type { CoarseRows } from './coarse-rows.ts';
import type { AccountsReport } from './accounts-data.ts';
import type { DueReport, LeaksReport } from './leaks-data.ts';

/** All that the owner's page says, whatever the units. */
export interface OwnerFigures {
  readonly accounts: AccountsReport;
  readonly leaks: LeaksReport;
  readonly due: DueReport;
  /** Flows by month, refrigerant, crew and technician, as the charts count them; of more people only those who moved the most are told apart. */
  readonly cells: CoarseRows<BalanceCellRow>;
}

/** The same in one system of units. */
export interface OwnerData extends OwnerFigures {
  readonly units: UnitSystem;
}
