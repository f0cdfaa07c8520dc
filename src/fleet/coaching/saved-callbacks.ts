import type { CallbackRisk, RiskModel } from '../callbacks/callback-risk.ts';
import type { FleetJobs } from '../fleet-jobs.ts';
import type { Skill } from '../skill.ts';

const daysOfYear = 365.25;

/** Jobs of a unit, those on which a skill was found, and how many of these are more than expected. */
export interface ExcessJobs {
  readonly own: Int32Array;
  readonly found: readonly number[];
  readonly excess: number;
}

/**
 * Callbacks a year that would not come if a skill were found on a unit's jobs no more often than on others': of the part of their risk that
 * is due to it, the share that is excess.
 *
 * @returns with the 95 % interval of what is due to it; undefined where callbacks tell nothing of the skill
 */
export function savedCallbacks(
  jobs: FleetJobs,
  model: RiskModel | undefined,
  skill: Skill,
  { own, found, excess }: ExcessJobs,
  horizonDays: number,
): CallbackRisk | null {
  const isOne = (of: { readonly skill: Skill }): boolean =>
    of.skill.by === skill.by && of.skill.checkIds.some((id) => skill.checkIds.includes(id));
  if (model === undefined || !model.predictors.some(isOne) || found.length === 0) return null;
  const years = Math.max(1, jobs.days[own[own.length - 1]] - jobs.days[own[0]] + 1) / daysOfYear;
  const share = Math.min(1, excess / found.length) / years;
  const due = found.map((job) => model.dueTo(isOne, job, -1, horizonDays));
  const sum = (which: 'risk' | 'low' | 'high'): number => share * due.reduce((all, one) => all + one[which], 0);
  return { risk: sum('risk'), low: sum('low'), high: sum('high') };
}
