import type { FleetJobs } from '../fleet-jobs.ts';
import { jobFactorNames, mixFactors } from '../job-mix.ts';
import { skillOutcome } from '../skill.ts';

/** A job that went well, and in what it is like another. */
export interface GoodExample {
  /** Its place among the jobs of the fleet. */
  readonly job: number;
  /** Titles of what is the same, such as "refrigerant". */
  readonly alike: readonly string[];
}

/**
 * The job most like another on which a skill was judged and nothing found: of those alike, one of the same person, since what one has done
 * one can do again; then the nearest in time.
 *
 * @param outcomes of every job in the skill, as `skillOutcomes` gives them
 * @param isShown whether a job has what is to be shown
 * @returns undefined where no job will do
 */
export function goodExample(
  { count, days, mix, units }: FleetJobs,
  outcomes: Uint8Array,
  job: number,
  isShown: (job: number) => boolean,
): GoodExample | undefined {
  const factors = mixFactors.filter(({ name }) => jobFactorNames.some((each) => each === name));
  const sameOf = (other: number) =>
    factors.filter(({ name }) => {
      const levels = mix[name as keyof typeof mix];
      return levels[job] !== 0 && levels[other] === levels[job];
    });
  const { of } = units.technician;
  let best: { job: number; rank: readonly number[] } | undefined;
  for (let other = 0; other < count; other += 1) {
    if (outcomes[other] !== skillOutcome.clean) continue;
    const rank = [sameOf(other).length, Number(of[other] === of[job]), -Math.abs(days[other] - days[job])];
    if ((best === undefined || isHigher(rank, best.rank)) && isShown(other)) best = { job: other, rank };
  }
  return best === undefined ? undefined : { job: best.job, alike: sameOf(best.job).map(({ title }) => title) };
}

function isHigher(rank: readonly number[], than: readonly number[]): boolean {
  const at = rank.findIndex((value, place) => value !== than[place]);
  return at >= 0 && rank[at] > than[at];
}
