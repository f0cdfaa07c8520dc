import type { Random } from '../../numerics/random.ts';
import type { Inspection } from '../../records/tables/inspections.ts';
import { dateOfDay, days } from '../calendar.ts';
import type { LeakRepair } from './leak-repair.ts';

const rhythmDays = { annual: 365, quarterly: 91 } as const;
/** Share of inspections that nobody makes: invented. */
const MISSED_SHARE = 0.12;
/** Share of leaks that are found by an inspection on the spot: invented. */
const FOUND_SO_SHARE = 0.7;

/**
 * Draws the `inspections` rows of an appliance: by its rhythm, some missed, and where a leak was found.
 *
 * @param leaks the leaks that were found; one is there from that day until its repair
 */
export function drawInspections(
  random: Random,
  systemId: string,
  rhythm: 'annual' | 'quarterly',
  leaks: readonly LeakRepair[],
): Inspection[] {
  const stepDays = rhythmDays[rhythm];
  const inspectedDays = new Set<number>();
  for (let day = random.integer(5, stepDays - 20); day < days; day += stepDays + random.integer(-6, 6)) {
    if (rhythm === 'annual' || !random.chance(MISSED_SHARE)) inspectedDays.add(day);
  }
  for (const { foundDay } of leaks) if (random.chance(FOUND_SO_SHARE)) inspectedDays.add(foundDay);
  return [...inspectedDays]
    .toSorted((a, b) => a - b)
    .map((day) => ({
      system_id: systemId,
      inspected_on: dateOfDay(day),
      leak_found: leaks.some(
        ({ foundDay, repairedDay }) => foundDay <= day && (repairedDay === undefined || day < repairedDay),
      ),
    }));
}
