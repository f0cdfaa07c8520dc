import type { ApplianceRecord } from './appliance-record.ts';
import { ruledCo2eT } from './applicable-rule.ts';
import { dayOf, monthsLater } from '../numerics/calendar-day.ts';
import { detectionDuty } from './detection-duty.ts';
import { type Obligation, obligation } from './obligation.ts';
import { type RepairRecord, repairsKnown } from './repair-record.ts';
import type { LeakCheckRule } from './rules/rule-set.ts';

/** What the duties of an appliance under a rule on leak checks follow from. */
export interface LeakCheckCase {
  readonly appliance: ApplianceRecord;
  readonly repairs: readonly RepairRecord[];
  readonly inspectionDays: readonly number[];
  /** The interval that goes for it [months]. */
  readonly everyMonths: number;
  readonly today: number;
}

/** What a rule on leak checks asks of an appliance to which it applies: the next check, the one after a repair, leak detection. */
export function leakCheckObligations(leaks: LeakCheckCase, rule: LeakCheckRule): Obligation[] {
  const { appliance, inspectionDays, everyMonths, today } = leaks;
  const { systemId } = appliance;
  const lastDay = Math.max(...inspectionDays.filter((day) => day <= today), Number.NEGATIVE_INFINITY);
  const sinceDay = Number.isFinite(lastDay) ? lastDay : appliance.installedDay;
  const basis = (rule.co2eBands ?? rule.massBands).basis;
  return [
    obligation(
      {
        kind: 'leak-check',
        systemId,
        ruleId: rule.id,
        basis,
        // No rule asks for anything before it holds.
        dueDay: sinceDay === null ? null : Math.max(monthsLater(sinceDay, everyMonths), dayOf(rule.from.value)),
        sinceDay,
        ...(sinceDay === null ? { lacks: 'any check and the day of installation' } : {}),
      },
      today,
    ),
    ...repairsKnown(leaks.repairs, today).flatMap((repair) => repairDuties(leaks, rule, repair)),
    ...detectionDuties(leaks, rule),
  ];
}

function repairDuties(
  { appliance: { systemId }, inspectionDays, today }: LeakCheckCase,
  rule: LeakCheckRule,
  repair: RepairRecord,
) {
  const { foundDay, repairedDay } = repair;
  const found: Obligation[] = [];
  if (rule.repairDays !== undefined && foundDay !== null)
    found.push(
      obligation(
        {
          kind: 'repair',
          systemId,
          ruleId: rule.id,
          basis: rule.repairDays.basis,
          dueDay: foundDay + rule.repairDays.value,
          doneDay: repairedDay,
          sinceDay: foundDay,
        },
        today,
      ),
    );
  if (rule.recheckMonths !== undefined && repairedDay !== null && repairedDay <= today) {
    const checks = [...inspectionDays, ...(repair.followUpDay === null ? [] : [repair.followUpDay])];
    found.push(
      obligation(
        {
          kind: 'recheck',
          systemId,
          ruleId: rule.id,
          basis: rule.recheckMonths.basis,
          dueDay: monthsLater(repairedDay, rule.recheckMonths.value),
          // Not on the day itself: it is to have run for a day.
          doneDay: checks.filter((day) => day > repairedDay).toSorted((a, b) => a - b)[0],
          sinceDay: repairedDay,
        },
        today,
      ),
    );
  }
  return found;
}

function detectionDuties({ appliance, today }: LeakCheckCase, rule: LeakCheckRule): Obligation[] {
  const { systemId, refrigerant, fullChargeKg, installedDay, hasDetection } = appliance;
  const amountT = ruledCo2eT(refrigerant ?? '', fullChargeKg ?? 0);
  if (rule.detectionFromCo2eT === undefined || amountT === undefined || amountT < rule.detectionFromCo2eT.value)
    return [];
  const told = rule.detectionFromCo2eT;
  return [
    detectionDuty(
      { systemId, ruleId: rule.id, told, dueDay: installedDay, sinceDay: installedDay, hasDetection },
      today,
    ),
  ];
}
