import type { LeakAddition } from './additions.ts';
import type { OverDay } from './appliance-leaks.ts';
import type { RepairRecord } from './repair-record.ts';

/** A system is filled up within so many days after its repair. Common practice, no source. */
const fillUpDays = 7;

/**
 * The first repair that answers an addition: of the same leak, where both name one. Whoever repairs first and fills up within days has
 * repaired what the addition makes up for, where nothing was added between.
 */
export function answeringRepair(
  { leakId }: LeakAddition,
  { day, previousDay }: OverDay,
  repairs: readonly RepairRecord[],
): RepairRecord | undefined {
  const afterDay = Math.min(day - 1, Math.max(previousDay ?? Number.NEGATIVE_INFINITY, day - fillUpDays - 1));
  const doneDay = ({ repairedDay, foundDay }: RepairRecord) => repairedDay ?? foundDay ?? Number.NEGATIVE_INFINITY;
  const fits = repairs.filter(
    (repair) => (repair.leakId === null || leakId === null || repair.leakId === leakId) && doneDay(repair) > afterDay,
  );
  // One of this very leak goes before others, a finished one before one that is not.
  return fits.toSorted(
    (a, b) =>
      Number(b.leakId === leakId) - Number(a.leakId === leakId) ||
      (a.repairedDay ?? Number.POSITIVE_INFINITY) - (b.repairedDay ?? Number.POSITIVE_INFINITY),
  )[0];
}
