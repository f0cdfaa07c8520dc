import type { LeakRateMethod } from '../accounts/appliance-leaks.ts';
import type { RuleReason } from '../accounts/applicable-rule.ts';
import { dateOf, dayOf, monthsLater } from '../numerics/calendar-day.ts';
import type { Obligation } from '../accounts/obligation.ts';
import type { Jurisdiction } from '../accounts/rules/rule-set.ts';
import { rules } from '../accounts/rules/rules.ts';
import type { CalibrationLine, DueLine, DueReport } from '../pages/leaks-data.ts';
import { dayText } from '../pages/day-text.ts';
import { ruleNotice } from '../pages/rule-notice.ts';
import type { Store } from '../store/store.ts';
import { asked } from './leaks-report.ts';
import { namedRule } from './named-rule.ts';
import { obligationsOf } from './obligations-of.ts';
import { eachAppliance } from './open-appliances.ts';

export interface DueOptions {
  readonly method: LeakRateMethod;
  /** Day on which it is asked, ISO 8601. */
  readonly on: string;
  /** Of what is due, only within so many days. */
  readonly withinDays: number;
  readonly calibrationMonths: number;
  readonly jurisdiction?: Jurisdiction | undefined;
  readonly onProgress?: ((done: number, of: number, note: string) => void) | undefined;
}

const order: Readonly<Record<string, number>> = { overdue: 0, due: 1, unknown: 2 };

/** What rules ask for that is due, overdue, or cannot be told; and instruments whose calibration is. */
export async function dueReport(store: Store, options: DueOptions): Promise<DueReport> {
  const { method, withinDays, calibrationMonths, jurisdiction, onProgress } = options;
  const { on, today, lastDay } = await asked(store, options.on);
  const [open, doneLate]: [DueLine[], DueLine[]] = [[], []];
  const untold = new Map<RuleReason['id'], string[]>();
  const asking = new Set<string>();
  let [later, done] = [0, 0];
  await eachAppliance(store, { today, jurisdiction, onProgress }, (appliance) => {
    const { appliance: record, ruled } = appliance.account;
    const applies = ruled.some(({ verdict }) => verdict.state === 'applies');
    const unknown = ruled.find(({ verdict }) => verdict.state === 'unknown');
    if (!applies && unknown !== undefined) {
      const { id } = unknown.verdict.reason;
      untold.set(id, [...(untold.get(id) ?? []), record.systemId]);
    }
    for (const one of obligationsOf(appliance, method, today)) {
      const { siteId, refrigerant } = record;
      const line: DueLine = {
        ...asFarAsKnown(one, lastDay),
        siteId,
        refrigerant,
        dueOn: one.dueDay === null ? null : dateOf(one.dueDay),
      };
      asking.add(one.ruleId);
      if (line.state === 'done') done += 1;
      else if (line.state === 'done-late') doneLate.push(line);
      else if (line.state === 'due' && (one.dueDay ?? 0) > today + withinDays) later += 1;
      else open.push(line);
    }
  });
  const dueDay = ({ dueDay: day }: DueLine) => day ?? Number.POSITIVE_INFINITY;
  const inOrder = (a: DueLine, b: DueLine) =>
    order[a.state] - order[b.state] || dueDay(a) - dueDay(b) || (a.systemId < b.systemId ? -1 : 1);
  return {
    asOf: on,
    lastDay,
    withinDays,
    method,
    jurisdiction: jurisdiction ?? null,
    rules: rules.filter(({ id }) => asking.has(id)).map(namedRule),
    open: open.sort(inOrder),
    later,
    done,
    doneLate: doneLate.sort(inOrder),
    calibrationMonths,
    calibrations: await calibrations(store, today, { withinDays, calibrationMonths }),
    untold: [...untold].map(([reason, all]) => ({ reason, appliances: all, count: all.length })),
    notice: ruleNotice,
  };
}

/** What fell due after the record ends may have been done since. */
function asFarAsKnown(one: Obligation, lastDay: string): Obligation {
  const isAfter = one.state === 'overdue' && one.dueDay !== null && one.dueDay > dayOf(lastDay);
  return isAfter ? { ...one, state: 'unknown', lacks: `anything after ${dayText(lastDay)}` } : one;
}

async function calibrations(
  store: Store,
  today: number,
  { withinDays, calibrationMonths }: Pick<DueOptions, 'withinDays' | 'calibrationMonths'>,
): Promise<CalibrationLine[]> {
  const rows = await store.rows<{ gauge_id: string; kind: string | null; calibrated_on: string | null }>(
    'SELECT gauge_id, kind, calibrated_on::VARCHAR AS calibrated_on FROM gauges ORDER BY calibrated_on, gauge_id',
  );
  return rows.flatMap(({ gauge_id: gaugeId, kind, calibrated_on: calibratedOn }): CalibrationLine[] => {
    const dueDay = calibratedOn === null ? null : monthsLater(dayOf(calibratedOn), calibrationMonths);
    if (dueDay !== null && dueDay > today + withinDays) return [];
    const state = dueDay === null ? 'unknown' : today > dueDay ? 'overdue' : 'due';
    return [{ gaugeId, kind, calibratedOn, dueOn: dueDay === null ? null : dateOf(dueDay), state }];
  });
}
