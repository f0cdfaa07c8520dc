import type { OwnerFigures } from '../pages/owner-data.ts';
import { dayOf } from '../numerics/calendar-day.ts';
import type { Store } from '../store/store.ts';
import { accountedDays, accountsReportOf, bookedLedger } from './accounts-report.ts';
import { askedDay } from './asked-day.ts';
import { DueCollector } from './due-collector.ts';
import { calibrations } from './due-report.ts';
import { LeakTrend } from './leak-trend.ts';
import { LeaksCollector } from './leaks-collector.ts';
import { eachAppliance } from './open-appliances.ts';
import { ownerCells, toldApart } from './owner-cells.ts';
import { peopleNames } from './people-names.ts';
import { mostApart } from './report/most-apart.ts';
import { readWorths } from './worth.ts';

/** By which values and method the page goes; the commands take others. */
const usual = { vintage: 'us', method: 'annualising', withinDays: 90, calibrationMonths: 12 } as const;

/** All that the owner's page says, as of the last day on record; all appliances are gone through once. */
export async function ownerData(store: Store, { codes }: { readonly codes: boolean }): Promise<OwnerFigures> {
  const { vintage } = usual;
  const days = await accountedDays(store, {});
  const day = await askedDay(store, undefined);
  const trend = new LeakTrend(dayOf(days.period.from));
  const worths = await readWorths(store, vintage);
  const leaks = new LeaksCollector(day, usual, worths);
  const due = new DueCollector(day, usual);
  const apart = await eachAppliance(store, day, (open) => {
    trend.add(open.account);
    leaks.add(open);
    due.add(open);
  });
  const { from, to } = days.period;
  const told = await toldApart(store, mostApart);
  const ledger = await bookedLedger(store, { fromDay: dayOf(from), toDay: dayOf(to) }, { by: [], cells: told });
  return {
    accounts: await accountsReportOf(store, days, { leaks: trend, ledger }, { codes, vintage }),
    cells: ownerCells(ledger.cells, told, { worths, names: await peopleNames(store, codes) }),
    leaks: leaks.report(apart),
    due: due.report(await calibrations(store, day.today, usual)),
  };
}
