import type { ApplianceAccount, RuledAppliance } from '../accounts/appliance-account.ts';
import type { LeakPart } from '../accounts/additions.ts';
import { answeringRepair } from '../accounts/answering-repair.ts';
import type { LeakEvent, LeakRateMethod } from '../accounts/appliance-leaks.ts';
import type { RuleReason } from '../accounts/applicable-rule.ts';
import { dayOf } from '../numerics/calendar-day.ts';
import type { GwpVintage } from '../accounts/gwp.ts';
import { isOverTrigger, rateDays, reachesRatio } from '../accounts/leak-rate.ts';
import { type RepairRecord, repairsKnown } from '../accounts/repair-record.ts';
import { yearlyLoss } from '../accounts/repair-worth.ts';
import type { Jurisdiction, RuleSet } from '../accounts/rules/rule-set.ts';
import { rules } from '../accounts/rules/rules.ts';
import { DryholdError } from '../errors.ts';
import { median } from '../numerics/median.ts';
import type { ApplianceReport, LeakLine, LeaksReport, RuleCount, WorthLine } from '../pages/leaks-data.ts';
import { ruleNotice } from '../pages/rule-notice.ts';
import { accountDays } from '../store/account-days.ts';
import type { Store } from '../store/store.ts';
import { apartGroups } from './apart-groups.ts';
import { namedRule } from './named-rule.ts';
import { obligationsOf } from './obligations-of.ts';
import { eachAppliance, type OpenAppliance } from './open-appliances.ts';
import { readWorths, type Worths } from './worth.ts';

export interface LeaksOptions {
  readonly vintage: GwpVintage;
  /** By which rates are held against triggers; both are told. */
  readonly method: LeakRateMethod;
  /** Day on which rules are asked, ISO 8601; absent: the last on record. */
  readonly on?: string | undefined;
  readonly jurisdiction?: Jurisdiction | undefined;
  /** All appliances with additions, and not only the highest rates of those to which no rule on them applies. */
  readonly all?: boolean;
  readonly onProgress?: ((done: number, of: number, note: string) => void) | undefined;
}

/** So many are told. */
const most = { others: 20, worth: 20 } as const;

/** Which systems leak, how much, past which trigger, and which are worth repairing. */
export async function leaksReport(store: Store, options: LeaksOptions): Promise<LeaksReport> {
  const { vintage, method, jurisdiction, onProgress, all = false } = options;
  const { on, today, lastDay } = await asked(store, options.on);
  const worths = await readWorths(store, vintage);
  const counts = new RuleCounts();
  const [ruled, others]: [LeakLine[], LeakLine[]] = [[], []];
  const chronic: LeaksReport['chronic'][number][] = [];
  const losing: {
    appliance: OpenAppliance;
    worth: Omit<WorthLine, 'repairCost' | 'repairCostOf' | 'paidBackYears'>;
  }[] = [];
  const costs = new Map<string, number[]>();
  let [appliances, withLeaks] = [0, 0];
  const entries = await eachAppliance(store, { today, jurisdiction, onProgress }, (open) => {
    const { account, repairs } = open;
    appliances += 1;
    withLeaks += Number(account.leaks.length > 0);
    counts.add(account);
    for (const { cost, repairedDay } of repairs)
      if (cost !== null && repairedDay !== null && repairedDay <= today)
        addTo(costs, account.appliance.sector ?? '', cost);
    const applying = account.ruled.find(
      ({ rule, verdict }) => rule.kind === 'leak-rate' && verdict.state === 'applies',
    );
    if (applying !== undefined) ruled.push(leakLine(open, applying, { today, method, worths }));
    else if (account.events.length > 0) {
      others.push(leakLine(open, undefined, { today, method, worths }));
      if (!all && others.length > 50 * most.others) keepHighest(others, method);
    }
    chronic.push(...chronicYears(account, applying));
    const loss = yearlyLoss(account, repairsKnown(repairs, today), today);
    if (loss !== null) {
      const { appliance } = account;
      losing.push({
        appliance: open,
        worth: { appliance, loss, worth: worths.of(appliance.refrigerant, loss.kgPerYear) },
      });
    }
  });
  if (all) others.sort((a, b) => rateOf(b, method) - rateOf(a, method));
  else keepHighest(others, method);
  return {
    asOf: on,
    lastDay,
    vintage,
    method,
    jurisdiction: jurisdiction ?? null,
    appliances,
    withLeaks,
    rules: counts.all(),
    ruled: ruled.sort((a, b) => rateOf(b, method) - rateOf(a, method)),
    others,
    chronic,
    worth: losing
      .sort(
        (a, b) =>
          (b.worth.worth.cost ?? 0) - (a.worth.worth.cost ?? 0) || b.worth.loss.kgPerYear - a.worth.loss.kgPerYear,
      )
      .slice(0, most.worth)
      .map(({ appliance: { repairs }, worth }) => withRepair(worth, repairs, costs)),
    apart: apartGroups(entries),
    notice: ruleNotice,
  };
}

/**
 * One appliance with everything that its rates and duties rest on.
 *
 * @throws DryholdError `unknown-appliance`
 */
export async function applianceReport(store: Store, systemId: string, options: LeaksOptions): Promise<ApplianceReport> {
  const { vintage, method, jurisdiction } = options;
  const { on, today, lastDay } = await asked(store, options.on);
  const worths = await readWorths(store, vintage);
  const found: OpenAppliance[] = [];
  const entries = await eachAppliance(store, { today, jurisdiction, only: systemId }, (open) => found.push(open));
  const [open] = found;
  if (open === undefined) throw new DryholdError('unknown-appliance', { appliance: systemId, store: store.folder });
  const { appliance, additions, events, years, ruled } = open.account;
  return {
    asOf: on,
    lastDay,
    vintage,
    method,
    appliance,
    charge: worths.of(appliance.refrigerant, appliance.fullChargeKg ?? 0),
    additions,
    ruled: ruled.map(({ rule, verdict, events: own }) => ({ rule: namedRule(rule), verdict, events: own })),
    events,
    years,
    obligations: obligationsOf(open, method, today),
    apart: apartGroups(entries),
    notice: ruleNotice,
  };
}

/** The day that is asked about, and the last on record. */
export async function asked(
  store: Store,
  on: string | undefined,
): Promise<{ on: string; today: number; lastDay: string }> {
  const lastDay = (await accountDays(store))?.last ?? '1970-01-01';
  return { on: on ?? lastDay, today: dayOf(on ?? lastDay), lastDay };
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

function addTo(costs: Map<string, number[]>, sector: string, cost: number): void {
  costs.set(sector, [...(costs.get(sector) ?? []), cost]);
}

/** What a repair costs: as this one's did, else those of its sector, else all. */
function withRepair(
  line: Omit<WorthLine, 'repairCost' | 'repairCostOf' | 'paidBackYears'>,
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
