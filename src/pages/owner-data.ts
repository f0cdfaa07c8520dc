import type { UnitSystem } from '../units/display.ts';
import type { AccountsReport } from './accounts-data.ts';
import type { DueReport, LeaksReport } from './leaks-data.ts';

/** All that the owner's page says, whatever the units. */
export interface OwnerFigures {
  readonly accounts: AccountsReport;
  readonly leaks: LeaksReport;
  readonly due: DueReport;
}

/** The same in one system of units. */
export interface OwnerData extends OwnerFigures {
  readonly units: UnitSystem;
}
