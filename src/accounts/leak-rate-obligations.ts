import type { ApplianceRecord } from './appliance-record.ts';
import type { LeakEvent, LeakRateMethod, LeakYear } from './appliance-leaks.ts';
import { atLeastLb } from './applicable-rule.ts';
import { dayOf, monthsLater } from '../numerics/calendar-day.ts';
import { reachesRatio } from './leak-rate.ts';
import { answeringRepair } from './answering-repair.ts';
import { detectionDuty } from './detection-duty.ts';
import { type Obligation, obligation, type ObligationTerms } from './obligation.ts';
import { type RepairRecord, repairsKnown } from './repair-record.ts';
import type { LeakRateRule } from './rules/rule-set.ts';

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
  const known = {
    ...leaks,
    repairs: repairsKnown(leaks.repairs, leaks.today),
    inspectionDays: leaks.inspectionDays.filter((day) => day <= leaks.today).sort((a, b) => a - b),
  };
  return [
    ...openings(known, dayOf(rule.from.value)).flatMap(({ day, repair }) => repairDuties(known, rule, day, repair)),
    ...inspectionDuties(known, rule),
    ...reports(known, rule),
    ...detection(known, rule),
  ];
}

/** A leak that went over its trigger, and the repair that answers it. */
interface Opening {
  readonly day: number;
  readonly repair: RepairRecord | undefined;
}

/** Each time that a leak went over the trigger; what goes over again before it is repaired is the same duty. */
function openings({ events, method, repairs, today }: LeakCase, fromDay: number): Opening[] {
  const openUntil = new Map<string | null, number>();
  const found: Opening[] = [];
  for (const { addition, overDays } of events) {
    for (const over of overDays[method]) {
      if (
        over.day < fromDay ||
        over.day > today ||
        over.day <= (openUntil.get(addition.leakId) ?? Number.NEGATIVE_INFINITY)
      )
        continue;
      const repair = answeringRepair(addition, over, repairs);
      found.push({ day: over.day, repair });
      openUntil.set(addition.leakId, repair?.repairedDay ?? Number.POSITIVE_INFINITY);
    }
  }
  return found.sort((a, b) => a.day - b.day);
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
        dueDay: dueDay + rule.planDays.value,
        sinceDay: overDay,
        lacks: 'a place for such plans',
      }),
    );
  }
  if (repaired.doneDay === null) return found;
  const from = [repair?.initialDay, repair?.operationDay].filter((day) => day !== null && day !== undefined);
  const countsFrom = from.length === 0 ? null : Math.max(...from);
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

/**
 * Inspections from the first time over the trigger to a year after the last: a quarter or a year apart; each within its own time, or late.
 */
function inspectionDuties(leaks: LeakCase, rule: LeakRateRule): Obligation[] {
  const { appliance, inspectionDays, today } = leaks;
  const { sector, fullChargeKg } = appliance;
  const duty = rule.inspections.value.find(
    ({ sectors, fromLb }) => sector !== null && sectors.includes(sector) && atLeastLb(fullChargeKg ?? 0, fromLb),
  );
  if (duty === undefined) return [];
  const used = new Set<number>();
  return overSpells(leaks).flatMap(({ firstDay, untilDay }) => {
    const dueAt = (count: number) => monthsLater(firstDay, duty.everyMonths * count);
    const found: Obligation[] = [];
    for (let count = 1; dueAt(count) <= untilDay; count += 1) {
      const [fromDay, dueDay, nextDay] = [dueAt(count - 1), dueAt(count), dueAt(count + 1)];
      const within = (after: number, until: number) =>
        inspectionDays.find((day) => day > after && day <= until && !used.has(day));
      const doneDay = within(fromDay, dueDay) ?? within(dueDay, nextDay);
      if (doneDay !== undefined) used.add(doneDay);
      found.push(
        obligation(
          {
            kind: 'inspection',
            systemId: appliance.systemId,
            ruleId: rule.id,
            basis: rule.inspections.basis,
            dueDay,
            doneDay,
            sinceDay: firstDay,
            ...(appliance.hasDetection === true ? { lacks: 'whether its leak detection was checked instead' } : {}),
          },
          today,
        ),
      );
    }
    return found;
  });
}

/** Times over the trigger that follow each other within a year: from the first of them to a year after the last. */
function overSpells({ events, method, today }: LeakCase): { firstDay: number; untilDay: number }[] {
  const days = events.flatMap(({ overDays }) => overDays[method].map(({ day }) => day)).filter((day) => day <= today);
  const spells: { firstDay: number; untilDay: number }[] = [];
  for (const day of days.toSorted((a, b) => a - b)) {
    const last = spells.at(-1);
    if (last !== undefined && day <= last.untilDay) last.untilDay = monthsLater(day, 12);
    else spells.push({ firstDay: day, untilDay: monthsLater(day, 12) });
  }
  return spells;
}

/** Reports on appliances that took so much of their charge within a calendar year. */
function reports({ appliance, years, today }: LeakCase, rule: LeakRateRule): Obligation[] {
  return years
    .filter(({ year, ratio }) => reachesRatio(ratio, rule.chronicRatio.value) && `${year}-12-31` >= rule.from.value)
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
  return [detectionDuty({ systemId, ruleId: id, told, dueDay, sinceDay: installedDay, hasDetection }, today)];
}
