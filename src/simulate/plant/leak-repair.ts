import type { Random } from '../../numerics/random.ts';
import type { Repair } from '../../records/tables/repairs.ts';
import { dateOfDay, days } from '../calendar.ts';

/** What becomes of a leak that was found; `shutdown` stops an industrial process for it. */
export type LeakCourse = 'timely' | 'late' | 'no-follow-up' | 'unrepaired' | 'shutdown';

/** A leak that was found, and the days on which something is done about it; absent ones never come. */
export interface LeakRepair {
  readonly leakId: string;
  readonly course: LeakCourse;
  readonly foundDay: number;
  readonly repairedDay?: number;
  readonly initialDay?: number;
  readonly followupDay?: number;
  readonly normalDay?: number;
  readonly cost: number;
}

/** Days from finding to repair: invented. */
const repairDays: Readonly<Record<Exclude<LeakCourse, 'unrepaired'>, readonly [number, number]>> = {
  timely: [2, 24],
  'no-follow-up': [2, 24],
  late: [38, 80],
  shutdown: [45, 105],
};

/** Draws what is done about a leak that is found on that day. */
export function drawLeakRepair(
  random: Random,
  { leakId, course, foundDay }: Pick<LeakRepair, 'leakId' | 'course' | 'foundDay'>,
  fullChargeKg: number,
): LeakRepair {
  const cost = Math.round(random.uniform(180, 520) + 30 * Math.sqrt(fullChargeKg));
  if (course === 'unrepaired') return { leakId, course, foundDay, cost };
  const repairedDay = foundDay + random.integer(...repairDays[course]);
  const initialDay = repairedDay + random.integer(0, 1);
  const normalDay = course === 'shutdown' ? initialDay + random.integer(1, 3) : undefined;
  const followupDay = (normalDay ?? initialDay) + random.integer(2, 9);
  return {
    leakId,
    course,
    foundDay,
    repairedDay,
    initialDay,
    ...(course === 'no-follow-up' ? {} : { followupDay }),
    ...(normalDay === undefined ? {} : { normalDay }),
    cost,
  };
}

/** The `repairs` row, with what has come to pass by the end of the year. */
export function leakRepairRow(repair: LeakRepair, systemId: string, isIndustrial: boolean): Repair {
  const { leakId, course, foundDay, repairedDay, initialDay, followupDay, normalDay, cost } = repair;
  const isRepaired = repairedDay !== undefined && repairedDay < days;
  const dated = (column: keyof Repair, day: number | undefined) =>
    day === undefined || day >= days ? {} : { [column]: dateOfDay(day) };
  return {
    repair_id: leakId.replace('leak', 'repair'),
    system_id: systemId,
    leak_found_on: dateOfDay(foundDay),
    ...dated('repaired_on', repairedDay),
    ...dated('initial_verified_on', initialDay),
    ...dated('followup_verified_on', followupDay),
    leak_id: leakId,
    ...(isRepaired ? { cost } : {}),
    ...dated('normal_operation_on', normalDay),
    ...(isIndustrial ? { shutdown: course === 'shutdown' } : {}),
  };
}
