import type { ApplianceAccount } from './appliance-account.ts';
import { rateDays } from './leak-rate.ts';
import type { RepairRecord } from './repair-record.ts';

/** What an appliance is to be expected to lose, by what was added since its last repair. */
export interface YearlyLoss {
  readonly kgPerYear: number;
  /** Least and most of its single additions, each over the days since the one before [kg a year]. */
  readonly lowKgPerYear: number;
  readonly highKgPerYear: number;
  readonly additions: number;
  /** From the day on which it was full last before them, to the last of them. */
  readonly overDays: number;
}

/** A loss is told from what was added over so many days at least. Common practice, no source. */
const leastDays = 30;

/**
 * What an appliance loses a year, by what was added since it was repaired last: what was put back between two days on which it was full.
 *
 * @returns null where nothing was added since, or nothing tells since when it has been losing it
 */
export function yearlyLoss({ leaks }: ApplianceAccount, repairs: readonly RepairRecord[]): YearlyLoss | null {
  const repairedDay = Math.max(
    Number.NEGATIVE_INFINITY,
    ...repairs.flatMap(({ repairedDay: day }) => (day === null ? [] : [day])),
  );
  // What is added on the day of a repair makes up for what leaked before it; and of what was before the record nobody knows.
  const counted = leaks.flatMap(({ day, kg, lastDay, parts: [{ previousDay }] }) =>
    previousDay === null || day <= repairedDay
      ? []
      : [{ kg, lastDay, fromDay: Math.max(previousDay, repairedDay, day - rateDays) }],
  );
  if (counted.length === 0) return null;
  const overDays = Math.max(...counted.map(({ lastDay }) => lastDay)) - counted[0].fromDay;
  if (overDays < leastDays) return null;
  const single = counted.map(({ kg, lastDay, fromDay }) => (kg * 365) / Math.max(1, lastDay - fromDay));
  return {
    kgPerYear: (counted.reduce((sum, { kg }) => sum + kg, 0) * 365) / overDays,
    lowKgPerYear: Math.min(...single),
    highKgPerYear: Math.max(...single),
    additions: counted.length,
    overDays,
  };
}
