import type { Facts } from '../records/tables/facts.ts';

/** A level no farther than this ratio above what was reached is reached. Common practice, no source. */
const reachedRatio = 0.05;

/**
 * How a rise that slackens goes about its level, in words between "the rise" and the level: on its way to it, there, or on
 * its way but for a leak, which takes it past.
 *
 * @example riseCourse({ plateau_pa: 53.3, isolation_end_pa: 40 }) // 'heads for'
 */
export function riseCourse(facts: Partial<Facts>): string {
  const { rise_shape, leak_pa_per_s = 0, plateau_pa = 0, isolation_end_pa: endPa = 0 } = facts;
  if (leak_pa_per_s > 0 && (rise_shape === 'mixed' || plateau_pa < endPa)) return 'heads, a leak left aside, for';
  return plateau_pa <= endPa * (1 + reachedRatio) ? 'has levelled near' : 'heads for';
}
