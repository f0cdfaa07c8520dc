import type { OwnerData } from '../pages/owner-data.ts';
import type { Store } from '../store/store.ts';
import { accountsReport } from './accounts-report.ts';
import { dueReport } from './due-report.ts';
import { leaksReport } from './leaks-report.ts';

/** By which values and method the page goes; the commands take others. */
const usual = { vintage: 'us', method: 'annualising', withinDays: 90, calibrationMonths: 12 } as const;

/** All that the owner's page says, as of the last day on record. */
export async function ownerData(
  store: Store,
  { codes }: { readonly codes: boolean },
): Promise<Omit<OwnerData, 'units'>> {
  const { vintage, method, withinDays, calibrationMonths } = usual;
  const accounts = await accountsReport(store, { codes, vintage, by: [] });
  const leaks = await leaksReport(store, { vintage, method });
  const due = await dueReport(store, { method, on: accounts.lastDay, withinDays, calibrationMonths });
  return { accounts, leaks, due };
}
