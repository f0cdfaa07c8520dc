import type { LeakAddition } from './additions.ts';
import { dayOf, yearOf } from '../numerics/calendar-day.ts';
import { annualisedRate, isOverTrigger, rateDays, rollingRate } from './leak-rate.ts';
import type { LeakRateRule } from './rules/rule-set.ts';

/** One of the two methods by which rules take a leak rate. */
export type LeakRateMethod = 'annualising' | 'rolling';

export const leakRateMethods: readonly LeakRateMethod[] = ['annualising', 'rolling'];

/** A leak's additions with the rates that they come to. */
export interface LeakEvent {
  readonly addition: LeakAddition;
  /** Over which the annualising method took it: since the last addition, 365 at most, or as the rule says for the first. */
  readonly days: number;
  /** Why `days` is what it is: since the last addition; nothing before is on record; or the rule's word on its first addition. */
  readonly daysFrom: 'last-addition' | 'none-before' | 'first-under-rule';
  /** Ratios of the full charge a year. */
  readonly annualising: number;
  readonly rolling: number;
  /** What the rolling average took together [kg], and the day after which. */
  readonly rollingKg: number;
  readonly rollingAfterDay: number;
  /** Days of additions on which each rate was over the trigger, by method; none where none was given. */
  readonly overDays: Readonly<Record<LeakRateMethod, readonly OverDay[]>>;
}

/** A day on which a rate was over its trigger. */
export interface OverDay {
  readonly day: number;
  /** On which refrigerant was added last before; null where nothing before is on record. */
  readonly previousDay: number | null;
}

export interface LeakEventsOptions {
  readonly fullChargeKg: number;
  /** Days of successful follow-up verifications. */
  readonly verifiedDays: readonly number[];
  /** The rule by which they are taken; absent: by the definitions alone. */
  readonly rule?: LeakRateRule | undefined;
  /** Above which repair is due [ratio]. */
  readonly trigger?: number | undefined;
}

/**
 * Leak rates at every leak's additions, by both methods.
 *
 * Several additions for one leak are taken together, over the days from the last addition before the first of them to the last of them:
 * what was put back in all had leaked out over all of these days, in however many parts it came.
 *
 * Where a rule says how its first addition is taken, what was added before the rule held does not count.
 *
 * @returns in the order of time
 *
 * @throws DryholdError `out-of-range` where the full charge is not above 0
 */
export function leakEvents(additions: readonly LeakAddition[], options: LeakEventsOptions): LeakEvent[] {
  const { fullChargeKg, verifiedDays, rule, trigger = Number.POSITIVE_INFINITY } = options;
  const startDay = rule?.firstAdditionDays === undefined ? Number.NEGATIVE_INFINITY : dayOf(rule.from.value);
  const counted = additions
    .filter(({ lastDay }) => lastDay >= startDay)
    .flatMap((addition) => firstApart(since(addition, startDay), startDay))
    .sort((a, b) => a.lastDay - b.lastDay);
  const parts = counted.flatMap((one) => one.parts);
  const rollingAt = (day: number) => {
    const verified = Math.max(Number.NEGATIVE_INFINITY, ...verifiedDays.filter((one) => one < day));
    const afterDay = Math.max(day - rateDays - 1, verified, startDay - 1);
    const kg = parts.filter((part) => part.day > afterDay && part.day <= day).reduce((sum, part) => sum + part.kg, 0);
    return { kg, afterDay, rate: rollingRate(kg, fullChargeKg) };
  };
  return counted.map((addition) => {
    const firstDays = rule?.firstAdditionDays?.value ?? rateDays;
    const daysTo = (day: number) => daysBefore(addition.parts[0].previousDay, day, startDay, firstDays);
    const { days, daysFrom } = daysTo(addition.lastDay);
    const rolling = rollingAt(addition.lastDay);
    const overDays: Record<LeakRateMethod, OverDay[]> = { annualising: [], rolling: [] };
    for (const { day, previousDay } of addition.parts) {
      if (isOverTrigger(annualisedRate(addedKg(addition, day), fullChargeKg, daysTo(day).days), trigger))
        overDays.annualising.push({ day, previousDay });
      if (isOverTrigger(rollingAt(day).rate, trigger)) overDays.rolling.push({ day, previousDay });
    }
    return {
      addition,
      days,
      daysFrom,
      annualising: annualisedRate(addedKg(addition, addition.lastDay), fullChargeKg, days),
      rolling: rolling.rate,
      rollingKg: rolling.kg,
      rollingAfterDay: rolling.afterDay,
      overDays,
    };
  });
}

/** What of a leak's additions came on a day or later. */
function since(addition: LeakAddition, startDay: number): LeakAddition {
  if (addition.day >= startDay) return addition;
  const parts = addition.parts.filter(({ day }) => day >= startDay);
  return { ...addition, day: parts[0].day, parts, kg: parts.reduce((sum, { kg }) => sum + kg, 0) };
}

/** What was added until a day, of the days over which a rate is told at most [kg]. */
function addedKg({ parts }: LeakAddition, until: number): number {
  return parts.filter(({ day }) => day <= until && day >= until - rateDays).reduce((sum, { kg }) => sum + kg, 0);
}

/**
 * The first addition of a leak by itself, where nothing tells since when it had leaked out, or the rule counts from its own first day
 * on: from then on the appliance is known to have been full.
 */
function firstApart(addition: LeakAddition, startDay: number): LeakAddition[] {
  const [first, ...others] = addition.parts;
  if (others.length === 0 || (first.previousDay !== null && first.previousDay >= startDay)) return [addition];
  const lastDay = others.at(-1)?.day ?? first.day;
  return [
    { ...addition, lastDay: first.day, kg: first.kg, parts: [first] },
    { ...addition, day: others[0].day, lastDay, kg: others.reduce((sum, { kg }) => sum + kg, 0), parts: others },
  ];
}

/** Days in which what was added until a day leaked out. */
function daysBefore(
  previousDay: number | null,
  day: number,
  startDay: number,
  firstDays: number,
): Pick<LeakEvent, 'days' | 'daysFrom'> {
  if (previousDay === null) return { days: rateDays, daysFrom: 'none-before' };
  if (previousDay < startDay) return { days: firstDays, daysFrom: 'first-under-rule' };
  return { days: Math.min(day - previousDay, rateDays), daysFrom: 'last-addition' };
}

/** What leaked in a calendar year, by what was added. */
export interface LeakYear {
  readonly year: number;
  readonly kg: number;
  /** Of the full charge. */
  readonly ratio: number;
}

/** What was added for leaks by calendar year. */
export function leakYears(additions: readonly LeakAddition[], fullChargeKg: number): LeakYear[] {
  const byYear = new Map<number, number>();
  for (const { day, kg } of additions.flatMap(({ parts }) => parts))
    byYear.set(yearOf(day), (byYear.get(yearOf(day)) ?? 0) + kg);
  return [...byYear]
    .sort(([a], [b]) => a - b)
    .map(([year, kg]) => ({ year, kg, ratio: rollingRate(kg, fullChargeKg) }));
}
