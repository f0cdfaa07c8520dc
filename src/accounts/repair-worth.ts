import type { ApplianceLeaks } from './appliance-account.ts';
import { rateDays } from './leak-rate.ts';
import type { RepairRecord } from './repair-record.ts';

/** What an appliance is to be expected to lose, by what was added since its last repair. */
export interface YearlyLoss {
  readonly kgPerYear: number;
  /** Least and most of its single additions, each over the days since the one before [kg a year]. */
  readonly lowKgPerYear: number;
  readonly highKgPerYear: number;
  readonly additions: number;
  /** From the day on which it was known to be full, to the one that is asked. */
  readonly overDays: number;
}

/** A loss is told from so many days at least. Common practice, no source. */
const leastDays = 30;

/**
 * What an appliance loses a year: what was added since it was repaired last, or since it is first known to have been full, until the day
 * that is asked.
 *
 * @param repairs as they were known on that day
 * @param today since 1970
 * @returns null where nothing was added since
 */
export function yearlyLoss(
  { leaks }: ApplianceLeaks,
  repairs: readonly RepairRecord[],
  today: number,
): YearlyLoss | null {
  const parts = leaks.flatMap((leak) => leak.parts).sort((a, b) => a.day - b.day);
  const [first] = parts;
  if (first === undefined) return null;
  // Of what was before the record nobody knows: an addition tells that it was full on its day.
  const isKnownFull = first.previousDay !== null && first.day - first.previousDay <= rateDays;
  const repairedDays = repairs.flatMap(({ repairedDay }) => (repairedDay === null ? [] : [repairedDay]));
  const fullDay = Math.max(isKnownFull ? (first.previousDay ?? first.day) : first.day, ...repairedDays);
  const counted = parts.filter(({ day }) => day > fullDay);
  const overDays = today - fullDay;
  if (counted.length === 0 || overDays < leastDays) return null;
  const single = counted.map(
    ({ day, kg, previousDay }) => (kg * 365) / Math.max(1, day - Math.max(previousDay ?? fullDay, fullDay)),
  );
  return {
    kgPerYear: (counted.reduce((sum, { kg }) => sum + kg, 0) * 365) / overDays,
    lowKgPerYear: Math.min(...single),
    highKgPerYear: Math.max(...single),
    additions: counted.length,
    overDays,
  };
}
