import type { FleetJobs } from '../../src/fleet/fleet-jobs.ts';
import { followUps, type FollowUps, type JobCourses } from '../../src/fleet/callbacks/follow-up.ts';
import { skillOutcome, skillOutcomes, skills } from '../../src/fleet/skill.ts';
import { Random } from '../../src/numerics/random.ts';
import { type DrawnFleet, drawnFleet } from '../fleet-power/drawn-fleet.ts';

/** A fleet whose callbacks come by hazards that are known. */
export interface DrawnCallbacks {
  readonly fleet: DrawnFleet;
  /** Callbacks a year of a job with no finding. */
  readonly hazard: number;
  /** By skill: by how much a finding of it multiplies the hazard. */
  readonly ratios?: Readonly<Record<string, number>>;
  /** Standard deviation of the logarithm of the hazard between people, whatever is found. */
  readonly frailty?: number;
  /** Share of findings that nobody sees, since there is nothing to judge by. */
  readonly unjudged?: number;
  /** Share of a person's jobs that have no log at all, and by how much that multiplies the hazard. */
  readonly blank?: { readonly share: (technician: number) => number; readonly ratio: number };
  /** By how much hazards are multiplied from the first day to the last. */
  readonly trend?: number;
  /** Visits a year that a finding of a skill prompts, before any callback. */
  readonly revisits?: Readonly<Record<string, number>>;
}

/** What was drawn, and what is true of it. */
export interface DrawnCourses {
  readonly jobs: FleetJobs;
  readonly courses: JobCourses;
  /** The record ends on the day of the last job. */
  readonly toDay: number;
  /** True hazard of each job, callbacks a year. */
  readonly hazards: Float64Array;
}

export const horizonDays = 365;
const daysOfYear = 365;

/** Jobs, and what came of each: a callback, a visit that a finding prompted, or nothing yet. */
export function drawnCallbacks({
  fleet,
  hazard,
  ratios = {},
  frailty = 0,
  revisits = {},
  unjudged = 0,
  blank,
  trend = 1,
}: DrawnCallbacks): DrawnCourses {
  const jobs = drawnFleet(fleet);
  const random = new Random(fleet.seed, 1);
  const own = jobs.units.technician.ids.map(() => Math.exp(frailty === 0 ? 0 : random.normal(0, frailty)));
  const found = new Map(skills.map((skill) => [skill.id, skillOutcomes(jobs, skill)]));
  const isFound = (id: string, job: number): boolean => found.get(id)?.[job] === skillOutcome.found;
  const toDay = jobs.days[jobs.count - 1];
  const isBlank = jobs.days.map((_, job) =>
    Number(blank !== undefined && random.chance(blank.share(jobs.units.technician.of[job]))),
  );
  const passed = (job: number): number => (jobs.days[job] - jobs.days[0]) / Math.max(1, toDay - jobs.days[0]);
  const hazards = Float64Array.from(jobs.days, (_, job) =>
    Object.entries(ratios).reduce(
      (product, [id, ratio]) => (isFound(id, job) ? product * ratio : product),
      hazard *
        own[jobs.units.technician.of[job]] *
        trend ** passed(job) *
        (isBlank[job] === 1 && blank !== undefined ? blank.ratio : 1),
    ),
  );
  const callbackDays = hazards.map((each, job) => jobs.days[job] + Math.floor(random.exponential(daysOfYear / each)));
  const nextDays = Float64Array.from(jobs.days, (day, job) => {
    const rate = Object.entries(revisits).reduce((sum, [id, each]) => (isFound(id, job) ? sum + each : sum), 0);
    return rate === 0 ? Number.POSITIVE_INFINITY : day + Math.floor(random.exponential(daysOfYear / rate));
  });
  hideFindings(jobs, (job) => (isBlank[job] === 1 ? 1 : unjudged), random);
  return {
    jobs,
    toDay,
    hazards,
    courses: {
      isFollowed: new Uint8Array(jobs.count).fill(1),
      doneDays: jobs.days,
      nextDays,
      nextFollowsUp: new Uint8Array(jobs.count).fill(1),
      nextPlaces: new Int32Array(jobs.count).fill(-1),
      callbackDays,
      isNamed: new Uint8Array(jobs.count),
    },
  };
}

/** The jobs of a drawn fleet as they were watched by the end of the record. */
export function watchedJobs({ courses, jobs, toDay }: DrawnCourses): FollowUps {
  return followUps(courses, { fromDay: jobs.days[0], toDay, horizonDays });
}

/** Takes some of what was judged away, found or not. */
function hideFindings({ outcomes, count }: FleetJobs, share: (job: number) => number, random: Random): void {
  for (let at = 0; at < 2 * count; at += 1) {
    const hidden = share(at >> 1);
    if (hidden === 0) continue;
    for (let bit = 0; bit < 32; bit += 1) {
      if (((outcomes.judged[at] >>> bit) & 1) === 0 || !random.chance(hidden)) continue;
      outcomes.judged[at] &= ~(1 << bit);
      outcomes.found[at] &= ~(1 << bit);
    }
  }
}
