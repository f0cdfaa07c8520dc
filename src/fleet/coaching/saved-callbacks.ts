import type { CallbackModels } from '../callbacks/callback-models.ts';
import type { CallbackRisk } from '../callbacks/callback-risk.ts';
import { jointEffect } from '../callbacks/forerunners.ts';
import type { FleetJobs } from '../fleet-jobs.ts';
import type { Skill } from '../skill.ts';
import type { BelievedExcess } from './coaching-topics.ts';

const daysOfYear = 365.25;
/** Fewer days tell nothing of a year. Common practice, no source. */
const fewestDays = 90;
const normal95 = 1.959964;

/** Jobs of a unit in the order of time, those on which a skill was found, and how many of these are believed to be too many. */
export interface ExcessJobs {
  readonly own: Int32Array;
  readonly found: readonly number[];
  readonly believed: BelievedExcess;
}

/**
 * Callbacks a year that would not come if a skill were found on a unit's jobs no more often than on others': the part of their risk that is
 * due to it among the jobs of the same people, for as many jobs as are believed to be too many.
 *
 * @returns with the 95 % interval, by how well both are known; null where callbacks tell nothing of the skill, or nothing is believed
 */
export function savedCallbacks(
  jobs: FleetJobs,
  { risk, within }: Pick<CallbackModels, 'risk' | 'within'>,
  skill: Skill,
  { own, found, believed }: ExcessJobs,
  horizonDays: number,
): CallbackRisk | null {
  if (risk === undefined || within === undefined) return null;
  const isOne = (of: { readonly skill: Skill }): boolean =>
    of.skill.by === skill.by && of.skill.checkIds.some((id) => skill.checkIds.includes(id));
  const days = jobs.days[own[own.length - 1]] - jobs.days[own[0]] + 1;
  if (!within.predictors.some(isOne) || found.length === 0 || believed.jobs <= 0 || days < fewestDays) return null;
  const due = found.map((job) => {
    const hazard = risk.hazard(job, -1, horizonDays);
    const { effect, deviation } = jointEffect(within, isOne, job);
    const without = (z: number): number =>
      -Math.expm1(-hazard) + Math.expm1(-hazard * Math.exp(-effect - z * deviation));
    return { risk: without(0), deviation: (without(1) - without(-1)) / 2 };
  });
  const mean = (of: (one: (typeof due)[number]) => number): number =>
    due.reduce((sum, one) => sum + of(one), 0) / due.length;
  // What findings do is as sure or unsure for all jobs at once.
  const [each, unsure] = [mean((one) => one.risk), mean((one) => one.deviation)];
  const variance =
    (believed.jobs * unsure) ** 2 + (believed.deviation * each) ** 2 + (believed.deviation * unsure) ** 2;
  const years = days / daysOfYear;
  const [middle, half] = [(believed.jobs * each) / years, (normal95 * Math.sqrt(variance)) / years];
  return { risk: middle, low: middle - half, high: middle + half };
}
