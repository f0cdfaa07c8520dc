import type { ApplianceAccount, RuledAppliance } from '../accounts/appliance-account.ts';
import type { LeakPart } from '../accounts/additions.ts';
import { answeringRepair } from '../accounts/answering-repair.ts';
import type { LeakEvent, LeakRateMethod } from '../accounts/appliance-leaks.ts';
import type { RuleReason } from '../accounts/applicable-rule.ts';
import type { ApartEntry } from '../accounts/booked-ledger.ts';
import type { GwpVintage } from '../accounts/gwp.ts';
import { isOverTrigger, rateDays, reachesRatio } from '../accounts/leak-rate.ts';
import { type RepairRecord, repairsKnown } from '../accounts/repair-record.ts';
import { yearlyLoss } from '../accounts/repair-worth.ts';
import type { Jurisdiction, RuleSet } from '../accounts/rules/rule-set.ts';
import { rules } from '../accounts/rules/rules.ts';
import { median } from '../numerics/median.ts';
import type { LeakLine, LeaksReport, RuleCount, WorthLine } from '../pages/leaks-data.ts';
import { ruleNotice } from '../pages/rule-notice.ts';
import { apartGroups } from './apart-groups.ts';
import type { AskedDay } from './asked-day.ts';
import { namedRule } from './named-rule.ts';
import type { OpenAppliance } from './open-appliances.ts';
import type { Worths } from './worth.ts';

/** What of leaks is told. */
export interface LeaksAsked {
  readonly vintage: GwpVintage;
  /** By which rates are held against triggers; both are told. */
  readonly method: LeakRateMethod;
  readonly jurisdiction?: Jurisdiction | undefined;
  /** All appliances with additions, and not only the highest rates of those to which no rule on them applies. */
  readonly all?: boolean;
}

/** So many are told. */
const most = { others: 20, worth: 20 } as const;

type UnpricedRepair = Omit<WorthLine, 'repairCost' | 'repairCostOf' | 'paidBackYears'>;

/** Which appliances leak, how much, past which trigger, and which are worth repairing; it is given one after the other. */
export class LeaksCollector {
  readonly #day: AskedDay;
  readonly #options: LeaksAsked;
  readonly #worths: Worths;
  readonly #counts = new RuleCounts();
  readonly #ruled: LeakLine[] = [];
  readonly #others: LeakLine[] = [];
  readonly #chronic: LeaksReport['chronic'][number][] = [];
  readonly #losing: { readonly repairs: readonly RepairRecord[]; readonly worth: UnpricedRepair }[] = [];
  /** Of repairs, by sector. */
  readonly #costs = new Map<string, number[]>();
  #appliances = 0;
  #withLeaks = 0;

  constructor(day: AskedDay, options: LeaksAsked, worths: Worths) {
    this.#day = day;
    this.#options = options;
    this.#worths = worths;
  }

  add(open: OpenAppliance): void {
    const { account, repairs } = open;
    const { today } = this.#day;
    const { method, all = false } = this.#options;
    const asked = { today, method, worths: this.#worths };
    this.#appliances += 1;
    this.#withLeaks += Number(account.leaks.length > 0);
    this.#counts.add(account);
    this.#addCosts(account.appliance.sector ?? '', repairs);
    const applying = account.ruled.find(
      ({ rule, verdict }) => rule.kind === 'leak-rate' && verdict.state === 'applies',
    );
    if (applying !== undefined) this.#ruled.push(leakLine(open, applying, asked));
    else if (account.events.length > 0) {
      this.#others.push(leakLine(open, undefined, asked));
      if (!all && this.#others.length > 50 * most.others) keepHighest(this.#others, method);
    }
    this.#chronic.push(...chronicYears(account, applying));
    const loss = yearlyLoss(account, repairsKnown(repairs, today), today);
    if (loss === null) return;
    const { appliance } = account;
    const worth = this.#worths.of(appliance.refrigerant, loss.kgPerYear);
    this.#losing.push({ repairs, worth: { appliance, loss, worth } });
  }

  /** @param entries what cannot be accounted */
  report(entries: readonly ApartEntry[]): LeaksReport {
    const { on, lastDay } = this.#day;
    const { vintage, method, jurisdiction, all = false } = this.#options;
    const highestFirst = (a: LeakLine, b: LeakLine) => rateOf(b, method) - rateOf(a, method);
    if (all) this.#others.sort(highestFirst);
    else keepHighest(this.#others, method);
    return {
      asOf: on,
      lastDay,
      vintage,
      method,
      jurisdiction: jurisdiction ?? null,
      appliances: this.#appliances,
      withLeaks: this.#withLeaks,
      rules: this.#counts.all(),
      ruled: this.#ruled.sort(highestFirst),
      others: this.#others,
      chronic: this.#chronic,
      worth: this.#losing
        .sort(
          (a, b) =>
            (b.worth.worth.cost ?? 0) - (a.worth.worth.cost ?? 0) || b.worth.loss.kgPerYear - a.worth.loss.kgPerYear,
        )
        .slice(0, most.worth)
        .map(({ repairs, worth }) => withRepair(worth, repairs, this.#costs)),
      apart: apartGroups(entries),
      notice: ruleNotice,
    };
  }

  #addCosts(sector: string, repairs: readonly RepairRecord[]): void {
    for (const { cost, repairedDay } of repairs) {
      if (cost === null || repairedDay === null || repairedDay > this.#day.today) continue;
      const ofSector = this.#costs.get(sector);
      if (ofSector === undefined) this.#costs.set(sector, [cost]);
      else ofSector.push(cost);
    }
  }
}

function leakLine(
  { account, repairs }: OpenAppliance,
  applying: RuledAppliance | undefined,
  { today, method, worths }: { readonly today: number; readonly method: LeakRateMethod; readonly worths: Worths },
): LeakLine {
  const { appliance, leaks } = account;
  const trigger = applying?.verdict.trigger ?? null;
  const known = repairsKnown(repairs, today);
  const isOver = (rate: number) => trigger !== null && isOverTrigger(rate, trigger);
  const events = (applying?.events ?? account.events).map((event) => ({
    event,
    repairedDay: answeringRepair(event.addition, lastPart(event), known)?.repairedDay ?? null,
  }));
  // A leak that is over the trigger and not repaired goes before one that was topped up later.
  const open = events.filter(({ event, repairedDay }) => isOver(event[method]) && repairedDay === null);
  const told = open.toSorted((a, b) => b.event[method] - a.event[method])[0] ?? events.at(-1);
  const yearKg = leaks
    .flatMap(({ parts }) => parts)
    .filter(({ day }) => day >= today - rateDays)
    .reduce((sum, { kg }) => sum + kg, 0);
  return {
    appliance,
    ruleId: applying?.rule.id ?? null,
    trigger,
    latest: told?.event ?? null,
    isOver: { annualising: isOver(told?.event.annualising ?? 0), rolling: isOver(told?.event.rolling ?? 0) },
    repairedDay: told?.repairedDay ?? null,
    yearKg,
    year: worths.of(appliance.refrigerant, yearKg),
  };
}

function lastPart({ addition: { parts } }: LeakEvent): LeakPart {
  return parts[parts.length - 1];
}

function rateOf({ latest }: LeakLine, method: LeakRateMethod): number {
  return latest?.[method] ?? -1;
}

function keepHighest(lines: LeakLine[], method: LeakRateMethod): void {
  lines.sort((a, b) => rateOf(b, method) - rateOf(a, method));
  lines.length = Math.min(lines.length, most.others);
}

function chronicYears({ appliance, years }: ApplianceAccount, applying: RuledAppliance | undefined) {
  const rule = applying?.rule;
  if (rule?.kind !== 'leak-rate') return [];
  return years
    .filter(({ year, ratio }) => reachesRatio(ratio, rule.chronicRatio.value) && `${year}-12-31` >= rule.from.value)
    .map((year) => ({ systemId: appliance.systemId, ruleId: rule.id, year }));
}

/** What a repair costs: as this one's did, else those of its sector, else all. */
function withRepair(
  line: UnpricedRepair,
  repairs: readonly RepairRecord[],
  costs: ReadonlyMap<string, number[]>,
): WorthLine {
  const own = repairs.flatMap(({ cost }) => (cost === null ? [] : [cost]));
  const ofSector = costs.get(line.appliance.sector ?? '') ?? [];
  const all = [...costs.values()].flat();
  const [repairCostOf, some] = (
    [
      ['own', own],
      ['sector', ofSector],
      ['all', all],
    ] as const
  ).find(([, list]) => list.length > 0) ?? [null, []];
  const repairCost = some.length === 0 ? null : median(some);
  const { cost } = line.worth;
  return {
    ...line,
    repairCost,
    repairCostOf,
    paidBackYears: repairCost === null || cost === null || cost <= 0 ? null : repairCost / cost,
  };
}

/** Counts verdicts by rule and reason. */
class RuleCounts {
  readonly #counts = new Map<
    RuleSet,
    { applies: number; doesNot: Map<RuleReason['id'], number>; unknown: Map<RuleReason['id'], number> }
  >(rules.map((rule) => [rule, { applies: 0, doesNot: new Map(), unknown: new Map() }]));

  add({ ruled }: ApplianceAccount): void {
    for (const { rule, verdict } of ruled) {
      const counts = this.#counts.get(rule);
      if (counts === undefined) continue;
      if (verdict.state === 'applies') counts.applies += 1;
      else {
        const reasons = verdict.state === 'unknown' ? counts.unknown : counts.doesNot;
        reasons.set(verdict.reason.id, (reasons.get(verdict.reason.id) ?? 0) + 1);
      }
    }
  }

  all(): RuleCount[] {
    const listed = (reasons: ReadonlyMap<RuleReason['id'], number>) =>
      [...reasons].map(([reason, appliances]) => ({ reason, appliances })).sort((a, b) => b.appliances - a.appliances);
    return [...this.#counts].map(([rule, { applies, doesNot, unknown }]) => ({
      ...namedRule(rule),
      applies,
      doesNot: listed(doesNot),
      unknown: listed(unknown),
    }));
  }
}
