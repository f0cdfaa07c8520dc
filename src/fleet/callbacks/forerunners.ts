import { normalShareBelow } from '../../numerics/normal-distribution.ts';
import { fitProportionalHazards } from '../../numerics/proportional-hazards.ts';
import type { FleetJobs } from '../fleet-jobs.ts';
import { falseDiscoveryShares } from '../statistics/false-discovery.ts';
import { type FollowUps, someFollowed } from './follow-up.ts';
import { fitHazards, HazardColumns } from './hazard-model.ts';
import { type Predictor, predictorValue } from './predictors.ts';

/** How the hazard of a callback goes with a predictor, all others and the mix of jobs alike, among the jobs of the same person. */
export interface Forerunner {
  readonly predictor: Predictor;
  /** Callbacks of the jobs that have it. */
  readonly callbacks: number;
  /** Hazard beside jobs without it, with the 95 % interval. */
  readonly ratio: number;
  readonly low: number;
  readonly high: number;
  /** Chance of so much or more though it foretells nothing. */
  readonly chance: number;
  /** Share of false ones among all that look at least so sure. */
  readonly falseDiscoveryShare: number;
  readonly isForerunner: boolean;
}

/**
 * Of the predictors that are said to foretell, one in 30 may do so by chance. Set by simulation, no source: so that where nothing
 * foretells anything, in at most one fleet of twenty something is said to.
 */
export const forerunnerLimit = 1 / 30;
const normal95 = 1.959964;
/** A column with such a penalty stays at 0. */
const nailed = 1e12;

/**
 * Which findings foretell callbacks: hazard ratios of Cox's model, with their intervals. Each person has a baseline of its own, so that
 * who has more callbacks for other reasons, and more findings as well, makes none of them a forerunner.
 *
 * @returns undefined where nothing can be told
 *
 * Source: chances by the signed root of the likelihood ratio, textbook. Accuracy: by simulation (`npm run callback-power`).
 */
export function forerunners(
  jobs: FleetJobs,
  followed: FollowUps,
  predictors: readonly Predictor[],
): Forerunner[] | undefined {
  const some = someFollowed(followed);
  const columns = new HazardColumns(jobs, predictors);
  const rows = { ...columns.rows(some), strata: Int32Array.from(some.jobs, (job) => jobs.units.technician.of[job]) };
  const fit = fitHazards(columns, rows, 'wide');
  if (fit === undefined || !fit.isConverged) return undefined;
  const told = predictors.map((predictor, at) => {
    const column = columns.first + at;
    const effect = fit.coefficients[column];
    const penalties = fit.penalties.slice();
    penalties[column] = nailed;
    const start = fit.coefficients.slice();
    start[column] = 0;
    const without = fitProportionalHazards(rows, penalties, start);
    const better = fit.penalisedLogLikelihood - (without?.penalisedLogLikelihood ?? fit.penalisedLogLikelihood);
    const root = Math.sign(effect) * Math.sqrt(Math.max(0, 2 * better));
    const half = normal95 * Math.sqrt(fit.covariance[column * columns.size + column]);
    return {
      predictor,
      callbacks: callbacksWith(followed, predictor),
      ratio: Math.exp(effect),
      low: Math.exp(effect - half),
      high: Math.exp(effect + half),
      chance: 1 - normalShareBelow(root),
    };
  });
  const shares = falseDiscoveryShares(told.map(({ chance }) => chance));
  return told.map((one, at) => ({
    ...one,
    falseDiscoveryShare: shares[at],
    isForerunner: shares[at] <= forerunnerLimit,
  }));
}

function callbacksWith({ jobs, events }: FollowUps, predictor: Predictor): number {
  return jobs.reduce((sum, job, at) => sum + (events[at] === 1 && predictorValue(predictor, job) === 1 ? 1 : 0), 0);
}
