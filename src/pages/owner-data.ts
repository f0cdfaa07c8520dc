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
  readonly cells: OwnerCells;
}

/** Flows of refrigerant, and how many crews and technicians there are in all. */
export interface OwnerCells extends CoarseRows<BalanceCellRow> {
  readonly crews: number;
  readonly technicians: number;
}

/** The same in one system of units. */
export interface OwnerData extends OwnerFigures {
  readonly units: UnitSystem;
}
