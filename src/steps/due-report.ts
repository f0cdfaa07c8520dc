import { dateOf, dayOf, monthsLater } from '../numerics/calendar-day.ts';
import type { CalibrationLine, DueReport } from '../pages/leaks-data.ts';
import type { Store } from '../store/store.ts';
import { askedDay } from './asked-day.ts';
import { type DueAsked, DueCollector } from './due-collector.ts';
import { eachAppliance } from './open-appliances.ts';

export interface DueOptions extends DueAsked {
  /** Day on which it is asked, ISO 8601. */
  readonly on: string;
  readonly onProgress?: ((done: number, of: number, note: string) => void) | undefined;
}

/** What rules ask for that is due, overdue, or cannot be told; and instruments whose calibration is. */
export async function dueReport(store: Store, options: DueOptions): Promise<DueReport> {
  const { jurisdiction, onProgress } = options;
  const day = await askedDay(store, options.on);
  const { today } = day;
  const due = new DueCollector(day, options);
  await eachAppliance(store, { today, jurisdiction, onProgress }, (appliance) => due.add(appliance));
  return due.report(await calibrations(store, today, options));
}

/**
 * Instruments whose calibration is overdue, due, or not known.
 *
 * @param today since 1970
 */
export async function calibrations(
  store: Store,
  today: number,
  { withinDays, calibrationMonths }: Pick<DueAsked, 'withinDays' | 'calibrationMonths'>,
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
