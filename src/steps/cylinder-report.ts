import { emptyBalance, book, flowsOf } from '../accounts/balance.ts';
import { dateOf, dayOf } from '../numerics/calendar-day.ts';
import { DryholdError } from '../errors.ts';
import type { CylinderLedgerLine, CylinderReport } from '../pages/accounts-data.ts';
import { accountDays } from '../store/account-days.ts';
import type { Store } from '../store/store.ts';
import { bookedLedger } from './accounts-report.ts';
import { peopleNames } from './people-names.ts';
import { codedRemark } from './told-remark.ts';

/**
 * One cylinder, weighing by weighing, so that anybody can add it up.
 *
 * @throws DryholdError `unknown-cylinder`
 */
export async function cylinderReport(store: Store, cylinderId: string, codes: boolean): Promise<CylinderReport> {
  const lastDay = (await accountDays(store))?.last ?? '1970-01-01';
  const period = { fromDay: Number.NEGATIVE_INFINITY, toDay: dayOf(lastDay) };
  const names = await peopleNames(store, codes);
  const { kept } = await bookedLedger(store, period, { by: [], keep: cylinderId });
  if (kept === null) throw new DryholdError('unknown-cylinder', { cylinder: cylinderId, store: store.folder });
  const { account, remarks } = kept;
  const { cylinder, weighings, gaps, contentKg } = account.walk;
  const gapAfter = new Map(gaps.map((gap) => [gap.after, gap]));
  const balance = emptyBalance();
  for (const flow of flowsOf(account)) book(balance, flow, period);
  return {
    lastDay,
    cylinder,
    noAccount: account.noAccount,
    lines: weighings.map(({ weighing, outKg, mended }, at): CylinderLedgerLine => {
      const gap = gapAfter.get(weighing);
      return {
        weighingId: weighing.weighingId,
        on: dateOf(weighing.day),
        jobId: weighing.jobId,
        crew: weighing.crewId === null ? null : names.crew(weighing.crewId),
        technician: weighing.technicianId === null ? null : names.technician(weighing.technicianId),
        startKg: weighing.startKg,
        endKg: weighing.endKg,
        mended,
        missingKg: gap?.kg ?? null,
        isBeyond: gap?.isBeyond ?? false,
        outKg,
        contentKg: contentKg[at],
      };
    }),
    closing: gapAfter.get(null) ?? null,
    balance,
    remarks: codes ? remarks.map((remark) => codedRemark(remark, names)) : remarks,
    apart: account.apart.map(({ weighing, reason }) => ({ weighingId: weighing.weighingId, reason })),
  };
}
