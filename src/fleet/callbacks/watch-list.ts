import { AgeHazard } from './age-hazard.ts';
import type { CallbackRisk, RiskModel, RiskReason } from './callback-risk.ts';
import type { JobCourses, WatchedPeriod } from './follow-up.ts';
import { followUpEnding, followUps } from './follow-up.ts';

/** An open job: no callback yet, nothing done on its circuit since, and young enough for one to be laid to it. */
export interface OpenJob {
  /** Its place among the jobs of the fleet. */
  readonly job: number;
  readonly ageDays: number;
  /** Its age at the end of the window, or at the horizon. */
  readonly endDays: number;
  /** Chance of a callback within the window for any job of its age [ratio]. */
  readonly baseRisk: number;
}

/** An open job, and what its findings say of it. */
export interface LikelyJob extends OpenJob {
  /** Chance of a callback within the window. */
  readonly risk: CallbackRisk;
  readonly reasons: readonly RiskReason[];
}

/**
 * The open jobs on a day.
 *
 * @param onDay day since 1970 from which on callbacks are foretold
 * @param windowDays over so many days
 */
export function openJobs(courses: JobCourses, period: WatchedPeriod, onDay: number, windowDays: number): OpenJob[] {
  const base = new AgeHazard(followUps(courses, period));
  const { jobs, endings } = followUps(courses, { ...period, toDay: onDay });
  return Array.from(
    jobs.filter((_, at) => endings[at] === followUpEnding.stillWatched),
    (job) => {
      const ageDays = onDay - courses.doneDays[job];
      const endDays = Math.min(period.horizonDays, ageDays + windowDays);
      return { job, ageDays, endDays, baseRisk: -Math.expm1(-base.between(ageDays, endDays)) };
    },
  );
}

/**
 * The open jobs, the likeliest to call back first.
 *
 * @param most how many, the likeliest; absent: all
 */
export function watchList(open: readonly OpenJob[], model: RiskModel, most = Number.POSITIVE_INFINITY): LikelyJob[] {
  return open
    .map((each) => ({ each, hazard: model.hazard(each.job, each.ageDays, each.endDays) }))
    .sort((a, b) => b.hazard - a.hazard || b.each.job - a.each.job)
    .slice(0, most)
    .map(({ each }) => ({
      ...each,
      risk: model.risk(each.job, each.ageDays, each.endDays),
      reasons: model.reasons(each.job),
    }));
}
