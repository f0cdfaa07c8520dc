import type { UnitSystem } from '../units/display.ts';
import type { AccountsReport } from './accounts-data.ts';
import type { DueReport, LeaksReport } from './leaks-data.ts';

/** All that the owner's page says. */
export interface OwnerData {
  readonly accounts: AccountsReport;
  readonly leaks: LeaksReport;
  readonly due: DueReport;
  readonly units: UnitSystem;
}
