import { ApartWeighings } from './apart-fits.ts';
import { BalanceCells, type CellNames } from './balance-cells.ts';
import { accountedRefrigerant } from './accounted-refrigerant.ts';
import { addBalance, type Balance, book, emptyBalance, type Flow, flowsOf } from './balance.ts';
import {
  type ApartEntry,
  type BookedLedger,
  type CylinderLine,
  type Grouping,
  groupings,
  type MonthBalance,
  type Period,
} from './booked-ledger.ts';
import { dateOf } from '../numerics/calendar-day.ts';
import { type ApartReason, type CylinderAccount, cylinderAccount, type CylinderRemark } from './cylinder-account.ts';
import { counterparts } from './counterparts.ts';
import type { CylinderGap } from './cylinder-walk.ts';
import type { CylinderRecord, CylinderWeighing, CylinderWithWeighings, RecordedWeighing } from './cylinder-record.ts';
import { inWeighedOrder } from './weighed-order.ts';
import { misplacedWeighings } from './misplaced-weighings.ts';
import { scaleStepKg } from './scale-step.ts';
import { strayWeighings } from './stray-weighings.ts';
import { usableWeighing } from './usable-weighing.ts';

const noCrew = '';

export interface LedgerOptions {
  /** Balances that are wanted; absent: all. There may be as many sites as jobs. */
  readonly by?: readonly Grouping[] | undefined;
  /** Whether balances by month, refrigerant, crew and technician together are wanted; absent: not. */
  readonly cells?: boolean | CellNames | undefined;
  /** A cylinder of which the account itself is wanted. */
  readonly keep?: string | undefined;
}

/** Takes cylinders one by one, and books them once all are known: a weighing may belong to another cylinder than it was written for. */
export class Ledger {
  readonly #period: Period;
  readonly #total = emptyBalance();
  readonly #byRefrigerant = new Map<string, Balance>();
  readonly #byMonth = new Map<string, Balance>();
  readonly #byCrew = new Map<string, Balance>();
  readonly #byTechnician = new Map<string, Balance>();
  readonly #bySite = new Map<string, Balance>();
  readonly #cylinders: CylinderLine[] = [];
  readonly #apart: ApartEntry[] = [];
  readonly #apartWeighings = new ApartWeighings();
  #counterparts: ReadonlyMap<CylinderGap, string> = new Map();
  /** Cylinders of which something is beyond what the scale explains, with their weighings. */
  readonly #doubtful = new Map<string, { readonly cylinder: CylinderRecord; weighings: CylinderWeighing[] }>();
  readonly #monthByDay = new Map<number, string>();
  readonly #cells: BalanceCells | null;
  #booked = 0;
  #weighings = 0;
  readonly #keep: string | undefined;
  readonly #by: ReadonlySet<Grouping>;
  #kept: BookedLedger['kept'] = null;

  constructor(period: Period, { by = groupings, cells = false, keep }: LedgerOptions = {}) {
    this.#period = period;
    this.#cells = cells === false ? null : new BalanceCells(cells === true ? undefined : cells);
    this.#by = new Set(by);
    this.#keep = keep;
  }

  add({ cylinderId, cylinder, weighings }: CylinderWithWeighings): void {
    if (cylinder === null) {
      const reason = cylinderId === null ? 'no-cylinder' : 'unknown-cylinder';
      for (const weighing of weighings) this.#setApart(weighing, reason);
      return;
    }
    const stepKg = scaleStepKg(weighings.flatMap(({ startKg, endKg }) => [startKg, endKg].filter((kg) => kg !== null)));
    const usable: CylinderWeighing[] = [];
    for (const recorded of weighings) {
      const weighing = usableWeighing(recorded, stepKg);
      if (typeof weighing === 'string') this.#setApart(recorded, weighing);
      else usable.push(weighing);
    }
    const ordered = inWeighedOrder(usable);
    const account = cylinderAccount(cylinder, ordered);
    const isDoubtful = account.noAccount === null && account.walk.gaps.some(({ isBeyond }) => isBeyond);
    if (isDoubtful) this.#doubtful.set(cylinder.cylinderId, { cylinder, weighings: ordered });
    else this.#book(account, []);
  }

  /** Books what waited, and gives everything. */
  close(): BookedLedger {
    const misplaced = misplacedWeighings(
      [...this.#doubtful.values()].map(({ cylinder, weighings }) => cylinderAccount(cylinder, weighings).walk),
    );
    const moved = new Map<string, { weighing: CylinderWeighing; writtenFor: string }[]>();
    for (const { weighingId, writtenFor, fits } of misplaced) {
      const [from, to] = [this.#doubtful.get(writtenFor), this.#doubtful.get(fits)];
      const weighing = from?.weighings.find((one) => one.weighingId === weighingId);
      if (from === undefined || to === undefined || weighing === undefined) continue;
      from.weighings = from.weighings.filter((one) => one !== weighing);
      to.weighings = [...to.weighings, weighing].sort((a, b) => a.atMs - b.atMs);
      moved.set(fits, [...(moved.get(fits) ?? []), { weighing, writtenFor }]);
    }
    for (const doubtful of this.#doubtful.values()) {
      const stray = strayWeighings(cylinderAccount(doubtful.cylinder, doubtful.weighings).walk);
      for (const weighing of doubtful.weighings.filter(({ weighingId }) => stray.includes(weighingId)))
        this.#setApart({ ...weighing, writtenRefrigerant: weighing.refrigerant }, 'not-this-cylinder');
      doubtful.weighings = doubtful.weighings.filter(({ weighingId }) => !stray.includes(weighingId));
    }
    const accounts = [...this.#doubtful.values()].map(({ cylinder, weighings }) =>
      cylinderAccount(cylinder, weighings),
    );
    for (const { weighing } of accounts.flatMap(({ apart }) => apart)) this.#apartWeighings.add(fitted(weighing));
    this.#counterparts = counterparts(accounts.map(({ walk }) => walk));
    for (const account of accounts) {
      const came = (moved.get(account.walk.cylinder.cylinderId) ?? []).map(
        (one): CylinderRemark => ({ id: 'misplaced', ...one }),
      );
      this.#book(account, came);
    }
    this.#doubtful.clear();
    return {
      total: this.#total,
      byRefrigerant: sorted(this.#byRefrigerant),
      byMonth: this.#months(),
      cells: this.#cells?.inOrder() ?? [],
      byCrew: sorted(this.#byCrew),
      byTechnician: sorted(this.#byTechnician),
      bySite: sorted(this.#bySite),
      cylinders: this.#cylinders.sort((a, b) => (a.cylinder.cylinderId < b.cylinder.cylinderId ? -1 : 1)),
      booked: this.#booked,
      apart: this.#apart,
      weighings: this.#weighings,
      kept: this.#kept,
    };
  }

  #setApart(
    {
      weighingId,
      writtenRefrigerant,
      startKg,
      endKg,
      day,
    }: Pick<RecordedWeighing, 'weighingId' | 'writtenRefrigerant' | 'startKg' | 'endKg' | 'day'>,
    reason: ApartReason,
  ): void {
    const kg = startKg === null || endKg === null ? null : startKg - endKg;
    if (day === null || this.#isWithin(day)) this.#weighings += 1;
    this.#apart.push({ reason, what: 'weighing', id: weighingId, refrigerant: writtenRefrigerant, kg, day });
    const refrigerant = accountedRefrigerant(writtenRefrigerant) ?? null;
    if (kg !== null && day !== null) this.#apartWeighings.add({ weighingId, refrigerant, day, outKg: kg });
  }

  #book(account: CylinderAccount, came: readonly CylinderRemark[]): void {
    const { walk, apart, noAccount } = account;
    const { cylinder } = walk;
    const { cylinderId, refrigerant } = cylinder;
    const remarks = [...came, ...account.remarks].map((remark) => this.#withFits(remark, refrigerant));
    if (cylinderId === this.#keep) this.#kept = { account, remarks };
    const all = [...walk.weighings.map(({ weighing }) => weighing), ...apart.map(({ weighing }) => weighing)];
    this.#weighings += all.filter(({ day }) => this.#isWithin(day)).length;
    for (const { weighing, reason } of apart)
      this.#apart.push({
        reason,
        what: 'weighing',
        id: weighing.weighingId,
        refrigerant: weighing.refrigerant,
        kg: weighing.startKg - weighing.endKg,
        day: weighing.day,
      });
    if (noAccount !== null || refrigerant === null) {
      const kg = walk.weighings.reduce((sum, { outKg }) => sum + outKg, 0);
      const written = cylinder.writtenRefrigerant;
      this.#apart.push({
        reason: noAccount ?? 'no-refrigerant',
        what: 'cylinder',
        id: cylinderId,
        refrigerant: written,
        kg,
        day: cylinder.acquiredDay,
      });
      return;
    }
    if (cylinder.closedDay !== null && cylinder.closingKg === null)
      this.#apart.push({
        reason: 'closing-not-weighed',
        what: 'cylinder',
        id: cylinderId,
        refrigerant,
        kg: walk.lastKg,
        day: cylinder.closedDay,
      });
    const crews = new Set(walk.weighings.map(({ weighing }) => weighing.crewId));
    const crewId = crews.size === 1 ? ([...crews][0] ?? null) : null;
    const balance = emptyBalance();
    for (const flow of flowsOf(account)) this.#bookFlow(flow, { refrigerant, crewId }, balance);
    addBalance(this.#total, balance);
    addBalance(balanceOf(this.#byRefrigerant, refrigerant), balance);
    addBalance(balanceOf(this.#byCrew, crewId ?? noCrew), balance);
    this.#booked += 1;
    if (remarks.length > 0 || this.#by.has('cylinder'))
      this.#cylinders.push({ cylinder, balance, crewId, weighings: walk.weighings.length, remarks });
  }

  /** Names what would explain that something is missing or too much: weighings that are kept apart, or another cylinder. */
  #withFits(remark: CylinderRemark, refrigerant: string | null): CylinderRemark {
    if (remark.id !== 'missing' && remark.id !== 'too-much') return remark;
    const fits = remark.id === 'missing' ? this.#apartWeighings.fitting(remark.gap, refrigerant) : [];
    return { ...remark, fits, counterpart: this.#counterparts.get(remark.gap) ?? null };
  }

  #bookFlow(flow: Flow, { refrigerant, crewId }: { refrigerant: string; crewId: string | null }, own: Balance): void {
    const period = this.#period;
    book(own, flow, period);
    if (flow.day <= period.toDay) {
      // Months are strung together at the end: each opens with what the one before had on hand.
      const month = this.#monthOf(Math.max(flow.day, period.fromDay));
      book(balanceOf(this.#byMonth, `${month} ${refrigerant}`), flow, period);
      if (flow.day >= period.fromDay) this.#cells?.book(flow, { month, refrigerant, crewId }, period);
    }
    if (flow.kind === 'bought' || flow.kind === 'returned' || flow.kind === 'untold') return;
    if (this.#by.has('technician')) book(balanceOf(this.#byTechnician, flow.technicianId ?? ''), flow, period);
    if (this.#by.has('site')) book(balanceOf(this.#bySite, flow.siteId ?? ''), flow, period);
  }

  #isWithin(day: number): boolean {
    return day >= this.#period.fromDay && day <= this.#period.toDay;
  }

  #monthOf(day: number): string {
    let month = this.#monthByDay.get(day);
    if (month === undefined) {
      month = dateOf(day).slice(0, 7);
      this.#monthByDay.set(day, month);
    }
    return month;
  }

  #months(): MonthBalance[] {
    const onHandKg = new Map<string, number>();
    return [...this.#byMonth]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, balance]) => {
        const [month, refrigerant] = [key.slice(0, 7), key.slice(8)];
        balance.openingKg += onHandKg.get(refrigerant) ?? 0;
        balance.onHandKg += onHandKg.get(refrigerant) ?? 0;
        onHandKg.set(refrigerant, balance.onHandKg);
        return { month, refrigerant, balance };
      });
  }
}

function fitted({ weighingId, refrigerant, day, startKg, endKg }: CylinderWeighing) {
  return { weighingId, refrigerant, day, outKg: startKg - endKg };
}

function balanceOf(balances: Map<string, Balance>, key: string): Balance {
  let balance = balances.get(key);
  if (balance === undefined) {
    balance = emptyBalance();
    balances.set(key, balance);
  }
  return balance;
}

function sorted(balances: ReadonlyMap<string, Balance>): Map<string, Balance> {
  return new Map([...balances].sort(([a], [b]) => (a < b ? -1 : 1)));
}
