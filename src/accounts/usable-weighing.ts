import { accountedRefrigerant } from './accounted-refrigerant.ts';
import type { ApartReason } from './cylinder-account.ts';
import type { CylinderWeighing, RecordedWeighing } from './cylinder-record.ts';

/**
 * A weighing that can be booked, or why it cannot.
 *
 * @param stepKg of the scale, where its record does not say
 */
export function usableWeighing(recorded: RecordedWeighing, stepKg: number): CylinderWeighing | ApartReason {
  const { startKg, endKg, day, atMs, direction, writtenRefrigerant, ...rest } = recorded;
  if (startKg === null || endKg === null) return 'no-weights';
  if (direction === null) return 'no-direction';
  if (day === null || atMs === null) return 'no-day';
  return {
    ...rest,
    startKg,
    endKg,
    day,
    atMs,
    direction,
    stepKg: recorded.stepKg ?? stepKg,
    otherFrom: rest.otherKg === null ? null : rest.otherFrom,
    refrigerant: accountedRefrigerant(writtenRefrigerant) ?? writtenRefrigerant,
  };
}
