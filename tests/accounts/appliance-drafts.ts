import type { Addition, LeakAddition } from '../../src/accounts/additions.ts';
import { leakAdditions } from '../../src/accounts/additions.ts';
import {
  type LeakEvent,
  leakEvents,
  type LeakEventsOptions,
  type LeakRateMethod,
} from '../../src/accounts/appliance-leaks.ts';
import { applianceAccount, type RecordedAddition } from '../../src/accounts/appliance-account.ts';
import type { ApplianceRecord } from '../../src/accounts/appliance-record.ts';
import { dateOf, dayOf } from '../../src/numerics/calendar-day.ts';
import { leakRateObligations } from '../../src/accounts/leak-rate-obligations.ts';
import type { Obligation } from '../../src/accounts/obligation.ts';
import type { RepairRecord } from '../../src/accounts/repair-record.ts';
import type { LeakRateRule } from '../../src/accounts/rules/rule-set.ts';

/** A pound [kg], exactly. */
export const poundKg = 0.45359237;

/** Commercial refrigeration with 100 kg of R-404A in the United States, but for what is changed. */
export function anAppliance(changed: Partial<ApplianceRecord> = {}): ApplianceRecord {
  return {
    systemId: 'sys',
    siteId: null,
    refrigerant: 'R-404A',
    writtenRefrigerant: 'R-404A',
    fullChargeKg: 100,
    fullChargeBasis: 'maker',
    sector: 'commercial-refrigeration',
    jurisdiction: 'US',
    installedDay: null,
    retiredDay: null,
    isHermetic: null,
    hasDetection: null,
    ...changed,
  };
}

/** An addition on a day, ISO 8601 or since 1970. */
export function added(
  on: string | number,
  kg: number,
  leakId: string | null = null,
  purpose: Addition['purpose'] = 'leak',
): Addition {
  const day = typeof on === 'number' ? on : dayOf(on);
  return { day, kg, purpose, leakId, source: `${purpose} of ${kg} kg on ${day}` };
}

/** The same as it stands on record. */
export function recorded(
  on: string | number | null,
  chargedKg: number | null,
  changed: Partial<RecordedAddition> = {},
): RecordedAddition {
  return {
    source: `job of ${on}`,
    day: typeof on === 'string' ? dayOf(on) : on,
    chargedKg,
    recoveredKg: null,
    purpose: 'leak',
    leakId: null,
    wasEmpty: false,
    ...changed,
  };
}

/** A repair by its days, ISO 8601. */
export function aRepair(changed: {
  readonly leakId?: string;
  readonly found?: string;
  readonly repaired?: string;
  readonly initial?: string;
  readonly followUp?: string;
  readonly operation?: string;
  readonly isShutdown?: boolean;
}): RepairRecord {
  const { found, repaired, initial, followUp, operation, leakId = null, isShutdown = null } = changed;
  const day = (iso: string | undefined) => (iso === undefined ? null : dayOf(iso));
  return {
    leakId,
    foundDay: day(found),
    repairedDay: day(repaired),
    initialDay: day(initial),
    followUpDay: day(followUp),
    operationDay: day(operation),
    isShutdown,
    cost: null,
  };
}

/** Rates of an appliance of 100 kg that was filled on day 0, but for what is changed. */
export function ratesOf(
  additions: readonly Addition[],
  options: Partial<LeakEventsOptions> & { firstDay?: number | null } = {},
) {
  const { firstDay = 0, ...more } = options;
  return leakEvents(leakAdditions(additions, firstDay), { fullChargeKg: 100, verifiedDays: [], ...more });
}

/** What is asked about duties under a rule on leak rates. */
export interface AskedDuties {
  readonly rule: LeakRateRule;
  readonly on: string;
  readonly additions: readonly Addition[];
  readonly appliance?: Partial<ApplianceRecord>;
  readonly repairs?: readonly RepairRecord[];
  readonly inspected?: readonly string[];
  readonly method?: LeakRateMethod;
}

/** The duties of an appliance on a day, from everything that is on record of it. */
export function dutiesOf(asked: AskedDuties): Obligation[] {
  const { rule, on, repairs = [], inspected = [], method = 'annualising' } = asked;
  const written = asked.additions.map(({ day, kg, purpose, leakId }) => recorded(day, kg, { purpose, leakId }));
  const account = applianceAccount(anAppliance(asked.appliance), written, repairs, dayOf(on));
  const ruled = account.ruled.find((one) => one.rule.id === rule.id);
  if (ruled?.verdict.state !== 'applies') throw new Error('the rule does not apply');
  return leakRateObligations(
    {
      appliance: account.appliance,
      events: ruled.events,
      years: account.years,
      repairs,
      inspectionDays: inspected.map(dayOf),
      method,
      today: dayOf(on),
    },
    rule,
  );
}

/** A duty in one line: kind, due, done, state. */
export function dutyLine({ kind, dueDay, doneDay, state }: Obligation): string {
  const day = (one: number | null) => (one === null ? '–' : dateOf(one));
  return `${kind} due ${day(dueDay)} done ${day(doneDay)} ${state}`;
}

/** Duties of one kind, each in one line. */
export function dutyLines(duties: readonly Obligation[], kind?: Obligation['kind']): string[] {
  return duties.filter((one) => kind === undefined || one.kind === kind).map(dutyLine);
}

/** An addition of leaks by what matters of it. */
export function leakShape({ day, lastDay, kg, leakId, parts: [{ previousDay }] }: LeakAddition) {
  return { day, lastDay, kg: Math.round(kg * 1e9) / 1e9, leakId, previousDay };
}

/** The first day on which each rate was over its trigger; null where none was. */
export function firstOver({ overDays }: Pick<LeakEvent, 'overDays'>) {
  const first = (method: LeakRateMethod) => overDays[method][0]?.day ?? null;
  return { annualising: first('annualising'), rolling: first('rolling') };
}
