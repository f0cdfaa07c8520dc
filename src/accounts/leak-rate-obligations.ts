import type { ApplianceRecord } from './appliance-record.ts';
import { type LeakEvent, type LeakRateMethod, type LeakYear } from './appliance-leaks.ts';
import { atLeastLb } from './applicable-rule.ts';
import { dayOf, monthsLater } from './calendar-day.ts';
import { type Obligation, obligation, type ObligationTerms } from './obligation.ts';
import type { LeakRateRule, Ruled } from './rules/rule-set.ts';

/** A repair as on record; days since 1970, null is not on record. */
export interface RepairRecord {
  readonly leakId: string | null;
  readonly foundDay: number | null;
  readonly repairedDay: number | null;
  readonly initialDay: number | null;
  readonly followUpDay: number | null;
  readonly operationDay: number | null;
  readonly isShutdown: boolean | null;
  readonly cost: number | null;
}

/** What the duties of an appliance follow from. */
export interface LeakCase {
  readonly appliance: ApplianceRecord;
  readonly events: readonly LeakEvent[];
  readonly years: readonly LeakYear[];
  readonly repairs: readonly RepairRecord[];
  readonly inspectionDays: readonly number[];
  readonly method: LeakRateMethod;
  /** The day on which it is asked, since 1970. */
  readonly today: number;
}

/**
 * What a rule on leak rates asks of an appliance to which it applies: repair, verifications, inspections, report, leak detection.
 *
 * @returns in the order of what they follow from; done ones too
 */
export function leakRateObligations(leaks: LeakCase, rule: LeakRateRule): Obligation[] {
  const { events, method } = leaks;
  const found: Obligation[] = [];
  let coveredUntil = Number.NEGATIVE_INFINITY;
  for (const event of events) {
    const overDay = event.overOn[method];
    // What goes over again before the repair of the first is due and done is the same duty.
    if (overDay === null || overDay > leaks.today || overDay <= coveredUntil) continue;
    const repair = repairOf(event, overDay, leaks.repairs);
    found.push(...repairDuties(leaks, rule, overDay, repair));
    coveredUntil = repair?.repairedDay ?? Number.POSITIVE_INFINITY;
  }
  return [...found, ...inspectionDuties(leaks, rule), ...reports(leaks, rule), ...detection(leaks, rule)];
}

/** The repair that answers an addition: of the same leak, else the first from that day on. */
function repairOf(
  { addition }: LeakEvent,
  overDay: number,
  repairs: readonly RepairRecord[],
): RepairRecord | undefined {
  const same = repairs.filter(({ leakId }) => leakId !== null && leakId === addition.leakId);
  const later = repairs.filter(
    ({ leakId, repairedDay, foundDay }) =>
      (leakId === null || addition.leakId === null) && (repairedDay ?? foundDay ?? Number.NEGATIVE_INFINITY) >= overDay,
  );
  const dayOfRepair = ({ repairedDay }: RepairRecord) => repairedDay ?? Number.POSITIVE_INFINITY;
  return [same, later].find((some) => some.length > 0)?.toSorted((a, b) => dayOfRepair(a) - dayOfRepair(b))[0];
}

function repairDuties(
  { appliance: { systemId, sector }, today }: LeakCase,
  rule: LeakRateRule,
  overDay: number,
  repair: RepairRecord | undefined,
): Obligation[] {
  const isShutdown = repair?.isShutdown === true && sector === 'industrial-process';
  const days = isShutdown ? rule.shutdownRepairDays : rule.repairDays;
  const dueDay = overDay + days.value;
  const duty = (terms: Omit<ObligationTerms, 'systemId' | 'ruleId'>) =>
    obligation({ systemId, ruleId: rule.id, ...terms }, today);
  const repaired = duty({ kind: 'repair', basis: days.basis, dueDay, doneDay: repair?.repairedDay, sinceDay: overDay });
  const found = [
    repaired,
    duty({ kind: 'initial-verification', basis: days.basis, dueDay, doneDay: repair?.initialDay, sinceDay: overDay }),
  ];
  if (repaired.state === 'overdue') {
    found.push(
      duty({
        kind: 'retrofit-or-retirement-plan',
        basis: rule.planDays.basis,
        dueDay: overDay + rule.planDays.value,
        sinceDay: overDay,
        lacks: 'a place for such plans',
      }),
    );
  }
  if (repaired.doneDay === null && repair?.followUpDay == null) return found;
  const initialDay = repair?.initialDay ?? null;
  const countsFrom = initialDay === null ? null : Math.max(initialDay, repair?.operationDay ?? initialDay);
  return [
    ...found,
    duty({
      kind: 'follow-up-verification',
      basis: rule.followUpDays.basis,
      dueDay: countsFrom === null ? null : countsFrom + rule.followUpDays.value,
      doneDay: repair?.followUpDay,
      sinceDay: countsFrom,
      ...(countsFrom === null ? { lacks: 'the day of the initial verification' } : {}),
    }),
  ];
}

/** Inspections for a year after the last time over the trigger: quarterly ones four, a yearly one. */
function inspectionDuties(leaks: LeakCase, rule: LeakRateRule): Obligation[] {
  const { appliance, events, method, inspectionDays, today } = leaks;
  const overDays = events.flatMap(({ overOn }) =>
    overOn[method] === null || overOn[method] > today ? [] : [overOn[method]],
  );
  const { sector, fullChargeKg } = appliance;
  const duty = rule.inspections.value.find(
    ({ sectors, fromLb }) => sector !== null && sectors.includes(sector) && atLeastLb(fullChargeKg ?? 0, fromLb),
  );
  if (overDays.length === 0 || duty === undefined) return [];
  const lastOver = Math.max(...overDays);
  let fromDay = lastOver;
  return Array.from({ length: 12 / duty.everyMonths }, (_, at) => {
    const dueDay = monthsLater(lastOver, duty.everyMonths * (at + 1));
    const doneDay = inspectionDays.filter((day) => day > fromDay).toSorted((a, b) => a - b)[0];
    // An inspection after the next one is due stands for that one.
    const isLate = doneDay > monthsLater(lastOver, duty.everyMonths * (at + 2));
    const found = obligation(
      {
        kind: 'inspection',
        systemId: appliance.systemId,
        ruleId: rule.id,
        basis: rule.inspections.basis,
        dueDay,
        doneDay: isLate ? null : doneDay,
        sinceDay: lastOver,
        ...(appliance.hasDetection === true ? { lacks: 'whether its leak detection was checked instead' } : {}),
      },
      today,
    );
    fromDay = found.doneDay ?? dueDay;
    return found;
  });
}

/** Reports on appliances that took so much of their charge within a calendar year. */
function reports({ appliance, years, today }: LeakCase, rule: LeakRateRule): Obligation[] {
  return years
    .filter(({ year, ratio }) => ratio >= rule.chronicRatio.value && `${year}-12-31` >= rule.from.value)
    .map(({ year }) =>
      obligation(
        {
          kind: 'chronic-leak-report',
          systemId: appliance.systemId,
          ruleId: rule.id,
          basis: rule.chronicReportOn.basis,
          dueDay: dayOf(`${year + 1}-${rule.chronicReportOn.value}`),
          sinceDay: dayOf(`${year}-12-31`),
          lacks: 'a place for reports that were sent',
        },
        today,
      ),
    );
}

function detection({ appliance, today }: LeakCase, { id, detection: told }: LeakRateRule): Obligation[] {
  const { systemId, sector, fullChargeKg, installedDay, hasDetection } = appliance;
  if (told === undefined || sector === null || !told.value.sectors.includes(sector)) return [];
  if (!atLeastLb(fullChargeKg ?? 0, told.value.fromLb)) return [];
  if (installedDay !== null && installedDay < dayOf(told.value.olderFrom)) return [];
  const dueDay =
    installedDay === null
      ? null
      : installedDay >= dayOf(told.value.newFrom)
        ? installedDay + told.value.newDays
        : dayOf(told.value.olderBy);
  return [systemDuty({ systemId, ruleId: id, told, dueDay, sinceDay: installedDay, hasDetection }, today)];
}

/** That there is a leak detection system: there is, there is none, or the record does not say. */
export function systemDuty(
  duty: {
    readonly systemId: string;
    readonly ruleId: string;
    readonly told: Ruled<unknown>;
    readonly dueDay: number | null;
    readonly sinceDay: number | null;
    readonly hasDetection: boolean | null;
  },
  today: number,
): Obligation {
  const { systemId, ruleId, told, dueDay, sinceDay, hasDetection } = duty;
  return obligation(
    {
      kind: 'leak-detection',
      systemId,
      ruleId,
      basis: told.basis,
      dueDay,
      // Since when is not on record; that it is there is.
      doneDay: hasDetection === true ? Math.min(today, dueDay ?? today) : null,
      sinceDay,
      ...(hasDetection === null
        ? { lacks: 'whether it has leak detection' }
        : dueDay === null
          ? { lacks: 'the day of installation' }
          : {}),
    },
    today,
  );
}
