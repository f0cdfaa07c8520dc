import { holdsHydrofluorocarbon } from './accounted-refrigerant.ts';
import type { ApplianceRecord } from './appliance-record.ts';
import { dayOf } from '../numerics/calendar-day.ts';
import { co2eT, gwpOf } from './gwp.ts';
import { isOzoneDepleting } from './ozone-depleting.ts';
import { toInterchange } from '../units/unit.ts';
import type { LeakCheckBand, LeakCheckRule, LeakRateRule, RuleSet, Sector } from './rules/rule-set.ts';

/** Why a rule applies to an appliance on a day, does not, or cannot be told. */
export type RuleReason =
  | { readonly id: 'applies'; readonly fullChargeKg: number }
  | {
      readonly id:
        | 'other-jurisdiction'
        | 'no-jurisdiction'
        | 'no-refrigerant'
        | 'no-gwp'
        | 'no-sector'
        | 'no-full-charge'
        | 'no-hermetic'
        | 'retired';
    }
  | { readonly id: 'not-yet' | 'no-more'; readonly date: string }
  | { readonly id: 'not-ozone-depleting' | 'ozone-depleting' | 'no-hydrofluorocarbon' | 'not-fluorinated' }
  | { readonly id: 'low-gwp'; readonly gwp: number; readonly over: number }
  | { readonly id: 'excluded-sector'; readonly sector: Sector }
  | { readonly id: 'below-charge'; readonly fullChargeKg: number; readonly leastLb: number }
  | { readonly id: 'below-co2e'; readonly co2eT: number; readonly leastT: number }
  | { readonly id: 'below-mass'; readonly fullChargeKg: number; readonly leastKg: number }
  | { readonly id: 'hermetic'; readonly fullChargeKg: number };

/** Whether a rule applies. */
export interface RuleVerdict {
  readonly state: 'applies' | 'does-not' | 'unknown';
  readonly reason: RuleReason;
  /** Where a rule on leak checks applies: the interval [months], detection counted. */
  readonly everyMonths?: number;
  /** Where one on leak rates does: the trigger [ratio]. */
  readonly trigger?: number;
}

/** By so much a full charge written in kilograms to two decimals may fall short of one in pounds [kg]. */
const writtenKg = 0.005;

/** Whether a full charge is of so many pounds, rounding to two decimals of a kilogram left aside. */
export function atLeastLb(massKg: number, lb: number): boolean {
  return massKg >= toInterchange(lb, 'lb') - writtenKg;
}

/**
 * Whether a rule applies to an appliance on a day, and why.
 *
 * What is certain goes before what is not on record: an appliance of unknown sector that holds too little is told to hold too little.
 *
 * @param day since 1970
 */
export function ruleVerdict(appliance: ApplianceRecord, rule: RuleSet, day: number): RuleVerdict {
  const found: (RuleVerdict | undefined)[] = [
    jurisdictionVerdict(appliance, rule),
    timeVerdict(appliance, rule, day),
    ...(rule.kind === 'leak-rate' ? leakRateVerdicts(appliance, rule) : leakCheckVerdicts(appliance, rule)),
  ];
  const told = found.filter((verdict) => verdict !== undefined);
  return (
    told.find(({ state }) => state === 'does-not') ??
    told.find(({ state }) => state === 'unknown') ??
    applies(appliance, rule)
  );
}

const doesNot = (reason: RuleReason): RuleVerdict => ({ state: 'does-not', reason });
const unknown = (
  id: 'no-jurisdiction' | 'no-refrigerant' | 'no-gwp' | 'no-sector' | 'no-full-charge' | 'no-hermetic',
): RuleVerdict => ({
  state: 'unknown',
  reason: { id },
});

function jurisdictionVerdict({ jurisdiction }: ApplianceRecord, rule: RuleSet): RuleVerdict | undefined {
  if (jurisdiction === null) return unknown('no-jurisdiction');
  return jurisdiction === rule.jurisdiction ? undefined : doesNot({ id: 'other-jurisdiction' });
}

function timeVerdict({ retiredDay }: ApplianceRecord, rule: RuleSet, day: number): RuleVerdict | undefined {
  if (retiredDay !== null && day > retiredDay) return doesNot({ id: 'retired' });
  if (day < ruleDay(rule.from.value)) return doesNot({ id: 'not-yet', date: rule.from.value });
  if (rule.to !== undefined && day > ruleDay(rule.to.value)) return doesNot({ id: 'no-more', date: rule.to.value });
  return undefined;
}

const ruleDays = new Map<string, number>();

/** A day of a rule, since 1970: there are a few, which are asked for of every appliance. */
function ruleDay(iso: string): number {
  const day = ruleDays.get(iso) ?? dayOf(iso);
  ruleDays.set(iso, day);
  return day;
}

function leakRateVerdicts(appliance: ApplianceRecord, rule: LeakRateRule): (RuleVerdict | undefined)[] {
  const { refrigerant, sector, fullChargeKg } = appliance;
  const leastLb = rule.leastChargeLb.value;
  return [
    refrigerant === null ? unknown('no-refrigerant') : coveredBy(refrigerant, rule),
    sector === null
      ? unknown('no-sector')
      : rule.excludedSectors.value.includes(sector)
        ? doesNot({ id: 'excluded-sector', sector })
        : undefined,
    fullChargeKg === null
      ? unknown('no-full-charge')
      : atLeastLb(fullChargeKg, leastLb)
        ? undefined
        : doesNot({ id: 'below-charge', fullChargeKg, leastLb }),
  ];
}

function coveredBy(refrigerant: string, { refrigerants, gwpOver }: LeakRateRule): RuleVerdict | undefined {
  const depletes = isOzoneDepleting(refrigerant);
  if (refrigerants.value === 'ozone-depleting') return depletes ? undefined : doesNot({ id: 'not-ozone-depleting' });
  if (depletes) return doesNot({ id: 'ozone-depleting' });
  if (gwpOver === undefined)
    return holdsHydrofluorocarbon(refrigerant) ? undefined : doesNot({ id: 'no-hydrofluorocarbon' });
  const gwp = gwpOf(refrigerant, 'us')?.gwp;
  if (gwp === undefined) return unknown('no-gwp');
  return gwp > gwpOver.value ? undefined : doesNot({ id: 'low-gwp', gwp, over: gwpOver.value });
}

/** Unsaturated ones alone go by their mass. */
const unsaturated: ReadonlySet<string> = new Set(['R-1234yf', 'R-1234ze(E)']);

function leakCheckVerdicts(appliance: ApplianceRecord, rule: LeakCheckRule): (RuleVerdict | undefined)[] {
  const { refrigerant, fullChargeKg } = appliance;
  if (refrigerant === null) return [unknown('no-refrigerant')];
  const depletes = isOzoneDepleting(refrigerant);
  if (rule.refrigerants.value === 'ozone-depleting' && !depletes) return [doesNot({ id: 'not-ozone-depleting' })];
  if (rule.refrigerants.value === 'fluorinated') {
    if (depletes) return [doesNot({ id: 'ozone-depleting' })];
    if (!holdsHydrofluorocarbon(refrigerant) && !unsaturated.has(refrigerant))
      return [doesNot({ id: 'not-fluorinated' })];
  }
  if (fullChargeKg === null) return [unknown('no-full-charge')];
  return [amountVerdict(rule, refrigerant, fullChargeKg), hermeticVerdict(appliance, rule, refrigerant, fullChargeKg)];
}

/** The bands that go for a refrigerant, and how much of it counts in them. */
function bandsFor(
  rule: LeakCheckRule,
  refrigerant: string,
  fullChargeKg: number,
): { bands: readonly LeakCheckBand[]; amount: number; by: 'co2e' | 'mass' } | undefined {
  if (rule.co2eBands === undefined || unsaturated.has(refrigerant))
    return { bands: rule.massBands.value, amount: fullChargeKg, by: 'mass' };
  const gwp = gwpOf(refrigerant, 'ar4');
  return gwp === undefined ? undefined : { bands: rule.co2eBands.value, amount: co2eT(fullChargeKg, gwp), by: 'co2e' };
}

function amountVerdict(rule: LeakCheckRule, refrigerant: string, fullChargeKg: number): RuleVerdict | undefined {
  const found = bandsFor(rule, refrigerant, fullChargeKg);
  if (found === undefined) return unknown('no-gwp');
  const least = found.bands.at(-1)?.from ?? 0;
  if (found.amount >= least) return undefined;
  return doesNot(
    found.by === 'co2e'
      ? { id: 'below-co2e', co2eT: found.amount, leastT: least }
      : { id: 'below-mass', fullChargeKg, leastKg: least },
  );
}

function hermeticVerdict(
  { isHermetic, sector }: ApplianceRecord,
  { hermeticBelow }: LeakCheckRule,
  refrigerant: string,
  fullChargeKg: number,
): RuleVerdict | undefined {
  if (hermeticBelow === undefined) return undefined;
  const { co2eT: belowT, massKg, residentialKg } = hermeticBelow.value;
  const gwp = gwpOf(refrigerant, 'ar4');
  const isSmall = unsaturated.has(refrigerant)
    ? fullChargeKg < massKg
    : gwp !== undefined && co2eT(fullChargeKg, gwp) < belowT;
  if (!isSmall && !(sector === 'residential-comfort' && fullChargeKg < residentialKg)) return undefined;
  if (isHermetic === null) return unknown('no-hermetic');
  return isHermetic ? doesNot({ id: 'hermetic', fullChargeKg }) : undefined;
}

function applies(appliance: ApplianceRecord, rule: RuleSet): RuleVerdict {
  const fullChargeKg = appliance.fullChargeKg ?? 0;
  const reason: RuleReason = { id: 'applies', fullChargeKg };
  if (rule.kind === 'leak-rate')
    return { state: 'applies', reason, trigger: rule.triggers.value[appliance.sector ?? 'comfort'] };
  const found = bandsFor(rule, appliance.refrigerant ?? '', fullChargeKg);
  const months = found?.bands.find(({ from }) => found.amount >= from)?.everyMonths ?? 12;
  const times = appliance.hasDetection === true ? (rule.detectionTimes?.value ?? 1) : 1;
  return { state: 'applies', reason, everyMonths: months * times };
}

/** Carbon dioxide equivalent of a charge as the European rule takes it [t]; undefined where the values are not known. */
export function ruledCo2eT(refrigerant: string, massKg: number): number | undefined {
  const gwp = gwpOf(refrigerant, 'ar4');
  return gwp === undefined ? undefined : co2eT(massKg, gwp);
}
