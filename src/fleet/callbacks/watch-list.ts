import { AgeHazard } from './age-hazard.ts';
import type { CallbackRisk, RiskModel, RiskReason } from './callback-risk.ts';
import type { JobCourses, WatchedPeriod } from './follow-up.ts';
import { followUpEnding, followUps } from './follow-up.ts';

/** An open job: no callback yet, nothing done on its circuit since, and young enough for one to be laid to it. */
export interface OpenJob {
  /** Its place among the jobs of the fleet. */
  readonly job: number;
  readonly ageDays: number;
  /** Chance of a callback within the window. */
  readonly risk: CallbackRisk;
  /** The same for any job of its age [ratio]. */
  readonly baseRisk: number;
  readonly reasons: readonly RiskReason[];
}

/**
 * The open jobs, the likeliest to call back first.
 *
 * @param onDay day since 1970 from which on callbacks are foretold
 * @param windowDays over so many days
 * @param most how many, the likeliest; absent: all
 */
export function watchList(
  courses: JobCourses,
  period: WatchedPeriod,
  model: RiskModel,
  onDay: number,
  windowDays: number,
  most = Number.POSITIVE_INFINITY,
): OpenJob[] {
  const base = new AgeHazard(followUps(courses, period));
  return openJobs(courses, period, onDay)
    .map(({ job, ageDays }) => {
      const end = Math.min(period.horizonDays, ageDays + windowDays);
      return { job, ageDays, end, hazard: model.hazard(job, ageDays, end) };
    })
    .sort((a, b) => b.hazard - a.hazard || b.job - a.job)
    .slice(0, most)
    .map(({ job, ageDays, end }) => ({
      job,
      ageDays,
      risk: model.risk(job, ageDays, end),
      baseRisk: -Math.expm1(-base.between(ageDays, end)),
      reasons: model.reasons(job),
    }));
}

/** The open jobs on a day, and how old they are. */
export function openJobs(
  courses: JobCourses,
  period: WatchedPeriod,
  onDay: number,
): { readonly job: number; readonly ageDays: number }[] {
  const followed = followUps(courses, { ...period, toDay: onDay });
  return Array.from(followed.jobs).flatMap((job, at) =>
    followed.endings[at] === followUpEnding.stillWatched ? [{ job, ageDays: onDay - courses.doneDays[job] }] : [],
  );
}
