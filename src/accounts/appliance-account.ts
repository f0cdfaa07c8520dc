import { type Addition, leakAdditions, type LeakAddition } from './additions.ts';
import { type LeakEvent, leakEvents, type LeakYear, leakYears } from './appliance-leaks.ts';
import type { ApplianceRecord } from './appliance-record.ts';
import { type RuleVerdict, ruleVerdict } from './applicable-rule.ts';
import type { ApartReason } from './cylinder-account.ts';
import type { RepairRecord } from './repair-record.ts';
import { rules } from './rules/rules.ts';
import type { RuleSet } from './rules/rule-set.ts';

/** What was put into a system and taken out on one occasion, as on record; null is not known. */
export interface RecordedAddition {
  /** A job, a weighing or a callback, with its id. */
  readonly source: string;
  readonly day: number | null;
  /** Net of what stayed in hoses [kg]. */
  readonly chargedKg: number | null;
  readonly recoveredKg: number | null;
  readonly purpose: Addition['purpose'];
  readonly leakId: string | null;
  /** Whether the system was empty before. */
  readonly wasEmpty: boolean;
}

/** An appliance and everything that was put into it. */
export interface ApplianceWithAdditions {
  /** Null for additions that name no system. */
  readonly systemId: string | null;
  /** Null where the appliance is not on record. */
  readonly appliance: ApplianceRecord | null;
  readonly additions: readonly RecordedAddition[];
}

/** A rule with what it says of an appliance on a day. */
export interface RuledAppliance {
  readonly rule: RuleSet;
  readonly verdict: RuleVerdict;
  /** Of a rule on leak rates that applies: the rates as it takes them. */
  readonly events: readonly LeakEvent[];
}

/** An appliance with what its additions come to. */
export interface ApplianceAccount {
  readonly appliance: ApplianceRecord;
  /** Everything that counts, in the order of time. */
  readonly additions: readonly Addition[];
  readonly leaks: readonly LeakAddition[];
  /** Rates by the definitions alone; none without a full charge. */
  readonly events: readonly LeakEvent[];
  readonly years: readonly LeakYear[];
  readonly ruled: readonly RuledAppliance[];
  readonly apart: readonly {
    readonly source: string;
    readonly reason: ApartReason;
    readonly kg: number | null;
    readonly day: number | null;
  }[];
}

/** What was put into an appliance for leaks, without rates. */
export type ApplianceLeaks = Pick<ApplianceAccount, 'appliance' | 'additions' | 'leaks' | 'apart'>;

/**
 * What was put into an appliance, and what of it tells of leaks.
 *
 * @param today since 1970; what came later is left out
 */
export function applianceLeaks(
  appliance: ApplianceRecord,
  recorded: readonly RecordedAddition[],
  today: number,
): ApplianceLeaks {
  const { installedDay, retiredDay } = appliance;
  const apart: { source: string; reason: ApartReason; kg: number | null; day: number | null }[] = [];
  const additions: Addition[] = [];
  for (const one of recorded) {
    if (one.day !== null && one.day > today) continue;
    const counted = countedAddition(one, retiredDay);
    if (typeof counted !== 'string') additions.push(counted);
    else apart.push({ source: one.source, reason: counted, kg: one.chargedKg, day: one.day });
  }
  return { appliance, additions, leaks: leakAdditions(additions, installedDay), apart };
}

/**
 * What an appliance's additions come to: its leaks, their rates, and which rules have a say.
 *
 * @param repairs of this appliance
 * @param today the day on which rules are asked, since 1970; what came later is left out
 */
export function applianceAccount(
  appliance: ApplianceRecord,
  recorded: readonly RecordedAddition[],
  repairs: readonly RepairRecord[],
  today: number,
): ApplianceAccount {
  const known = applianceLeaks(appliance, recorded, today);
  const { leaks } = known;
  const { fullChargeKg } = appliance;
  const verifiedDays = repairs.flatMap(({ followUpDay }) => (followUpDay === null ? [] : [followUpDay]));
  const ruled = rules.map((rule): RuledAppliance => {
    const verdict = ruleVerdict(appliance, rule, today);
    const { trigger } = verdict;
    const hasRates = rule.kind === 'leak-rate' && verdict.state === 'applies' && fullChargeKg !== null;
    return { rule, verdict, events: hasRates ? leakEvents(leaks, { fullChargeKg, verifiedDays, rule, trigger }) : [] };
  });
  return {
    ...known,
    events: fullChargeKg === null ? [] : leakEvents(leaks, { fullChargeKg, verifiedDays }),
    years: fullChargeKg === null ? [] : leakYears(leaks, fullChargeKg),
    ruled,
  };
}

/** What an occasion put in, net of what it took out; or why that cannot be told. */
function countedAddition(one: RecordedAddition, retiredDay: number | null): Addition | ApartReason {
  const { source, day, chargedKg, recoveredKg, purpose, leakId, wasEmpty } = one;
  if (day === null) return 'no-day';
  if (retiredDay !== null && day > retiredDay) return 'after-retirement';
  if (chargedKg === null && recoveredKg === null) return 'no-weights';
  // A system that was emptied took back what it had lost only beyond what had been in it.
  if (purpose === 'leak' && wasEmpty && recoveredKg === null && (chargedKg ?? 0) > 0) return 'recovered-not-known';
  return { day, kg: (chargedKg ?? 0) - (recoveredKg ?? 0), purpose, leakId, source };
}
