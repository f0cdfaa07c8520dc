import { addBalance, type Balance, emptyBalance, unexplainedHalfWidthKg } from '../accounts/balance.ts';
import { applianceLeaks } from '../accounts/appliance-account.ts';
import { dayOf } from '../numerics/calendar-day.ts';
import type { CylinderRemark } from '../accounts/cylinder-account.ts';
import { type GwpVintage } from '../accounts/gwp.ts';
import type { BookedLedger, Grouping, Period } from '../accounts/booked-ledger.ts';
import { Ledger, type LedgerOptions } from '../accounts/ledger.ts';
import type { AccountsReport, BalanceLine, RemarkedCylinder } from '../pages/accounts-data.ts';
import { accountDays } from '../store/account-days.ts';
import { readCallbackCosts } from '../store/callback-costs.ts';
import { readAppliances } from '../store/appliance-additions.ts';
import { readCylinders } from '../store/cylinder-weighings.ts';
import { readNeededCharged, readOverchargedJobs } from '../store/needed-charged.ts';
import type { Store } from '../store/store.ts';
import { monthSignals, trendMonths } from './account-trend.ts';
import { callbackCosts, warrantyDays } from './callback-costs.ts';
import { codedRemark, dayOfRemark } from './told-remark.ts';
import { apartGroups } from './apart-groups.ts';
import { LeakTrend } from './leak-trend.ts';
import { needLine, needLinesBy, overchargedLine } from './need-lines.ts';
import { type PeopleNames, peopleNames } from './people-names.ts';
import { readWorths, type Worths } from './worth.ts';

export interface AccountsOptions {
  readonly codes: boolean;
  readonly vintage: GwpVintage;
  /** ISO 8601, both included; absent: from the first, to the last day on record. */
  readonly from?: string | undefined;
  readonly to?: string | undefined;
  /** Balances by technician, site and cylinder only where they are wanted; absent: all. */
  readonly by?: readonly Grouping[] | undefined;
  readonly onProgress?: ((done: number, of: number, note: string) => void) | undefined;
}

/** Jobs that are told of those that put in too much. */
const mostJobs = 20;

/** Where the refrigerant went over some days: balances, what is missing, what was needed, what is kept apart, trends, and callbacks' cost. */
export async function accountsReport(store: Store, options: AccountsOptions): Promise<AccountsReport> {
  const days = await accountedDays(store, options);
  options.onProgress?.(0, 4, 'leaks');
  const [fromDay, toDay] = [dayOf(days.period.from), dayOf(days.period.to)];
  const leaks = new LeakTrend(fromDay);
  for await (const { appliance, additions } of readAppliances(store))
    if (appliance !== null) leaks.add(applianceLeaks(appliance, additions, toDay));
  options.onProgress?.(1, 4, 'cylinders');
  const ledger = await bookedLedger(store, { fromDay, toDay }, { by: options.by });
  return accountsReportOf(store, days, { leaks, ledger }, options);
}

/** Over which days it is accounted, and the last on record. */
export interface AccountedDays {
  readonly period: AccountsReport['period'];
  readonly lastDay: string;
}

export async function accountedDays(
  store: Store,
  { from, to }: Pick<AccountsOptions, 'from' | 'to'>,
): Promise<AccountedDays> {
  const { first, last } = (await accountDays(store)) ?? { first: '1970-01-01', last: '1970-01-01' };
  return { period: { from: from ?? first, to: to ?? last }, lastDay: last };
}

/**
 * The same where all appliances and cylinders were gone through already.
 *
 * @param gone leaks of all appliances, and the ledger of all cylinders, over the period
 */
export async function accountsReportOf(
  store: Store,
  { period, lastDay }: AccountedDays,
  { leaks, ledger }: { readonly leaks: LeakTrend; readonly ledger: BookedLedger },
  { codes, vintage, onProgress = () => undefined }: Omit<AccountsOptions, 'from' | 'to' | 'by'>,
): Promise<AccountsReport> {
  const names = await peopleNames(store, codes);
  const worths = await readWorths(store, vintage);
  const isWithin = (day: number) => day >= dayOf(period.from) && day <= dayOf(period.to);
  onProgress(2, 4, 'what was needed');
  const needed = await readNeededCharged(store, period.from, period.to);
  const overcharged = await readOverchargedJobs(store, { ...period, most: mostJobs });
  const trend = trendMonths(ledger, leaks.additions, leaks.chargeKg);
  onProgress(3, 4, 'callbacks');
  const callbacks = await readCallbackCosts(store, period.from, period.to);
  const [{ judged, unweighed, unweighedKg }] = await store.rows<{
    judged: number;
    unweighed: number;
    unweighedKg: number;
  }>(
    `SELECT count(*) AS judged, count(*) FILTER (drawn_kg > 0 AND w.job_id IS NULL)::INTEGER AS unweighed,
       coalesce(sum(drawn_kg) FILTER (w.job_id IS NULL), 0) AS "unweighedKg"
     FROM facts f LEFT JOIN (SELECT DISTINCT job_id FROM weighings) w USING (job_id) LEFT JOIN jobs j USING (job_id)
     WHERE j.started_at IS NULL OR left(j.started_at, 10) BETWEEN $1 AND $2`,
    [period.from, period.to],
  );
  const isKnown = (id: string) => worths.gwp(id);
  return {
    period,
    lastDay,
    vintage,
    vintageNotes: [...vintageNotes(ledger, isKnown), ...priceNotes(ledger, worths)],
    cylinders: ledger.booked,
    weighings: ledger.weighings,
    isMeasured: judged > 0,
    ...balanceLines(ledger, { names, worths, codes }),
    ...remarks(ledger, names, { codes, isWithin }),
    apart: [
      ...apartGroups(ledger.apart.filter(({ day }) => day === null || isWithin(day))),
      ...(unweighed > 0
        ? [{ reason: 'no-weighing' as const, what: 'job' as const, count: unweighed, kg: unweighedKg, entries: [] }]
        : []),
    ],
    needs:
      needed.length === 0
        ? null
        : {
            total: needLine('', 'all', needed, worths),
            technicians: needLinesBy(
              needed,
              (row) => row.technician_id ?? '',
              (id) => names.technician(id),
              worths,
            )
              .map((line) => (codes ? { ...line, id: line.name } : line))
              .sort((a, b) => b.overKg - a.overKg),
            months: needLinesBy(
              needed,
              (row) => row.month,
              (month) => month,
              worths,
            ).sort((a, b) => (a.id < b.id ? -1 : 1)),
            jobs: overcharged.map((job) => overchargedLine(job, names, worths)),
          },
    trend,
    signals: monthSignals(trend),
    warrantyDays,
    callbackCosts: callbackCosts(callbacks),
  };
}

/** All cylinders of a store, booked over a period. */
export async function bookedLedger(store: Store, period: Period, options: LedgerOptions): Promise<BookedLedger> {
  const ledger = new Ledger(period, options);
  for await (const one of readCylinders(store)) ledger.add(one);
  return ledger.close();
}

function vintageNotes(ledger: BookedLedger, gwp: Worths['gwp']): string[] {
  return [...ledger.byRefrigerant.keys()].flatMap((refrigerant) => {
    const found = gwp(refrigerant);
    if (found === undefined) return [`${refrigerant}: no value of that vintage is known here`];
    const standIns = found.standIns.filter((name) => name !== refrigerant);
    if (found.standIns.length > 0)
      return [
        `${refrigerant}: ${standIns.length > 0 ? `of ${standIns.join(', ')} ` : ''}the value of ${found.vintage === 'us' ? 'IPCC AR4' : '40 CFR 84.64'} stands in`,
      ];
    return found.isFromMemory ? [`${refrigerant}: from memory`] : [];
  });
}

/** Refrigerants without a price: their cost is in no sum. */
function priceNotes(ledger: BookedLedger, { pricePerKg }: Worths): string[] {
  const unpriced = [...ledger.byRefrigerant.keys()].filter((refrigerant) => pricePerKg(refrigerant) === undefined);
  return unpriced.length === 0 ? [] : [`no price on record, and so in no cost: ${unpriced.join(', ')}`];
}

/** Lines of every grouping. */
function balanceLines(
  ledger: BookedLedger,
  { names, worths, codes }: { readonly names: PeopleNames; readonly worths: Worths; readonly codes: boolean },
): Pick<AccountsReport, 'total' | 'lines'> {
  // Of several refrigerants together the worth is the sum of theirs; of crews and people it is told by mass alone.
  const unpriced = { of: () => ({ cost: null, co2eT: null }) };
  const months = Map.groupBy(ledger.byMonth, ({ month }) => month);
  const holders = (balances: ReadonlyMap<string, Balance>, nameOf: (id: string) => string) =>
    [...balances].map(([id, balance]) => lineOf(id, id === '' ? '' : nameOf(id), balance, unpriced.of));
  const flowsOnly = (line: BalanceLine): BalanceLine => ({
    ...line,
    openingKg: null,
    boughtKg: null,
    returnedKg: null,
    untoldKg: null,
    onHandKg: null,
    cost: null,
  });
  const byRefrigerant = [...ledger.byRefrigerant].map(([id, balance]) =>
    lineOf(id, id, balance, (kg) => worths.of(id, kg)),
  );
  return {
    total: {
      ...lineOf('', 'all', ledger.total, unpriced.of),
      charged: worths.sum(byRefrigerant.map(({ charged }) => charged)),
      unexplained: worths.sum(byRefrigerant.map(({ unexplained }) => unexplained)),
    },
    lines: {
      refrigerant: byRefrigerant,
      month: monthLines(months, ledger.total.openingKg, worths),
      crew: holders(ledger.byCrew, names.crew).map((line) => (line.id === '' ? line : { ...line, id: line.name })),
      technician: holders(ledger.byTechnician, names.technician)
        .map((line) => (codes && line.id !== '' ? { ...line, id: line.name } : line))
        .map(flowsOnly),
      site: holders(ledger.bySite, (id) => id).map(flowsOnly),
      cylinder: ledger.cylinders.map(({ cylinder: { cylinderId, refrigerant }, balance }) =>
        lineOf(cylinderId, cylinderId, balance, (kg) => worths.of(refrigerant, kg)),
      ),
    },
  };
}

/** Months over all refrigerants; what is on hand of one that did not move in a month is carried on. */
function monthLines(
  months: ReadonlyMap<string, BookedLedger['byMonth']>,
  openingKg: number,
  worths: Worths,
): BalanceLine[] {
  let onHandKg = openingKg;
  return [...months].map(([month, own]) => {
    const sum = emptyBalance();
    for (const { balance } of own) addBalance(sum, balance);
    sum.openingKg = onHandKg;
    sum.onHandKg =
      onHandKg + sum.boughtKg + sum.recoveredKg - sum.chargedKg - sum.returnedKg - sum.unexplainedKg - sum.untoldKg;
    onHandKg = sum.onHandKg;
    const worthOf = (kgOf: (balance: Balance) => number) =>
      worths.sum(own.map(({ refrigerant, balance }) => worths.of(refrigerant, kgOf(balance))));
    return {
      ...lineOf(month, month, sum, () => ({ cost: null, co2eT: null })),
      charged: worthOf(({ chargedKg }) => chargedKg),
      unexplained: worthOf(({ unexplainedKg }) => unexplainedKg),
    };
  });
}

function lineOf(
  id: string,
  name: string,
  balance: Balance,
  worthOf: (kg: number) => BalanceLine['charged'],
): BalanceLine {
  return {
    id,
    name,
    openingKg: balance.openingKg,
    boughtKg: balance.boughtKg,
    chargedKg: balance.chargedKg,
    recoveredKg: balance.recoveredKg,
    returnedKg: balance.returnedKg,
    untoldKg: balance.untoldKg,
    unexplainedKg: balance.unexplainedKg,
    unexplainedHalfWidthKg: unexplainedHalfWidthKg(balance),
    onHandKg: balance.onHandKg,
    cost: balance.costedKg > 0 ? balance.cost : null,
    charged: worthOf(balance.chargedKg),
    unexplained: worthOf(balance.unexplainedKg),
  };
}

const remarkIds: readonly CylinderRemark['id'][] = [
  'missing',
  'too-much',
  'mistyped',
  'misplaced',
  'negative',
  'overfilled',
  'other-refrigerant',
];

interface RemarksOptions {
  readonly codes: boolean;
  readonly isWithin: (day: number) => boolean;
}

/** The heaviest first, of those that fall within the days that are looked at. */
function remarks(
  ledger: BookedLedger,
  names: PeopleNames,
  { codes, isWithin }: RemarksOptions,
): Pick<AccountsReport, 'remarked' | 'remarkCounts' | 'apartKg'> {
  const remarked = ledger.cylinders.flatMap(({ cylinder: { cylinderId, refrigerant }, crewId, remarks: all }) => {
    const own = all.filter((remark) => isWithin(dayOfRemark(remark)));
    if (own.length === 0) return [];
    const told = own.map((remark) => (codes ? codedRemark(remark, names) : remark));
    return [{ cylinderId, refrigerant, crew: crewId === null ? null : names.crew(crewId), remarks: told }];
  });
  const weight = ({ remarks: own }: RemarkedCylinder) =>
    Math.max(...own.map((one) => (one.id === 'missing' || one.id === 'too-much' ? Math.abs(one.gap.kg) : 0)));
  const fitting = remarked.flatMap(({ remarks: own }) =>
    own.flatMap((one) => (one.id === 'missing' && one.fits.length > 0 ? [one.gap.kg] : [])),
  );
  return {
    remarked: remarked.sort((a, b) => weight(b) - weight(a) || (a.cylinderId < b.cylinderId ? -1 : 1)),
    remarkCounts: Object.fromEntries(
      remarkIds.map((id) => [id, remarked.filter(({ remarks: own }) => own.some((one) => one.id === id)).length]),
    ) as AccountsReport['remarkCounts'],
    apartKg: fitting.reduce((sum, kg) => sum + kg, 0),
  };
}
