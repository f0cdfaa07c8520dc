import { followUpEnding, type FollowUps } from './follow-up.ts';

/** Length of a step of the table [days]. */
export const stepDays = 30;

/** What happened to jobs of one kind in one step of their age; adds up over kinds. */
export interface LifeTableCount {
  /** Whose these are, as the caller numbers them. */
  readonly kind: number;
  /** The step of the age: the days after `step * 30` up to `(step + 1) * 30`; −1 for the day of the job itself. */
  readonly step: number;
  /** Jobs that were watched from the day of the job on, all in step −1. */
  readonly began: number;
  /** Jobs whose watch began within the step, since callbacks are on record only from a later day. */
  readonly late: number;
  /** Jobs whose watch ended without a callback before the horizon; those that stay to it were watched all of the last step, and leave in none. */
  readonly left: number;
  readonly called: number;
}

/**
 * Counts jobs as they were watched, by kind and by steps of their age, for life tables over any sum of kinds.
 *
 * @param kindOf the kind of a job by its place in the fleet; −1 leaves it out
 * @returns only steps in which jobs began, came, left, called or stayed to the horizon, by kind and step
 */
export function lifeTableCounts(
  { jobs, entries, stops, events, endings }: FollowUps,
  kindOf: (job: number) => number,
): LifeTableCount[] {
  const counts = new Map<number, { began: number; late: number; left: number; called: number }>();
  const at = (kind: number, age: number) => {
    const step = age < 0 ? -1 : Math.max(0, Math.ceil(age / stepDays) - 1);
    const key = kind * stepsEach + step + 1;
    const known = counts.get(key) ?? { began: 0, late: 0, left: 0, called: 0 };
    counts.set(key, known);
    return known;
  };
  for (const [row, job] of jobs.entries()) {
    const kind = kindOf(job);
    if (kind < 0) continue;
    if (entries[row] < 0) at(kind, -1).began += 1;
    else at(kind, entries[row]).late += 1;
    const end = at(kind, stops[row]);
    if (events[row] === 1) end.called += 1;
    else if (endings[row] !== followUpEnding.horizon) end.left += 1;
  }
  return [...counts]
    .sort(([a], [b]) => a - b)
    .map(([key, count]) => ({ kind: Math.floor(key / stepsEach), step: (key % stepsEach) - 1, ...count }));
}

/** More steps than any horizon has. */
const stepsEach = 4096;
