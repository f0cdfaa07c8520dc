import { normalShareBelow } from '../../numerics/normal-distribution.ts';
import { fitProportionalHazards, type HazardRows } from '../../numerics/proportional-hazards.ts';
import type { FleetJobs } from '../fleet-jobs.ts';
import { falseDiscoveryShares } from '../statistics/false-discovery.ts';
import { type FollowUps, someFollowed } from './follow-up.ts';
import { fitHazards, HazardColumns, type PenalisedHazardFit } from './hazard-model.ts';
import { skillOutcome } from '../skill.ts';
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

/** Hazards among the jobs of the same person, fitted. */
export interface WithinPeople {
  readonly predictors: readonly Predictor[];
  readonly followed: FollowUps;
  readonly columns: HazardColumns;
  readonly rows: HazardRows;
  readonly fit: PenalisedHazardFit;
}

/**
 * Fits how the hazard of a callback goes with findings among the jobs of each person, or of each crew where no person is on record. Each
 * has a baseline of its own, so that who has more callbacks for other reasons, and more findings as well, makes none of them a
 * forerunner. Jobs of which neither is on record are left out.
 *
 * @returns undefined where nothing can be told
 */
export function fitWithinPeople(
  jobs: FleetJobs,
  followed: FollowUps,
  predictors: readonly Predictor[],
): WithinPeople | undefined {
  const { technician, crew } = jobs.units;
  const whose = (job: number): number =>
    technician.of[job] >= 0 ? technician.of[job] : crew.of[job] >= 0 ? technician.ids.length + crew.of[job] : -1;
  const some = someFollowed(followed);
  const columns = new HazardColumns(jobs, followed, predictors);
  const strata = Int32Array.from(some.jobs, whose);
  // Who ends as soon as he enters was never watched.
  const entries = some.entries.map((entry, row) => (strata[row] < 0 ? some.stops[row] : entry));
  const rows = { ...columns.rows({ ...some, entries }), strata };
  const fit = fitHazards(columns, rows, 'wide');
  return fit?.isConverged === true ? { predictors, followed, columns, rows, fit } : undefined;
}

/**
 * Which findings foretell callbacks: hazard ratios of Cox's model, with their intervals.
 *
 * Source: chances by the signed root of the likelihood ratio, textbook. Accuracy: by simulation (`npm run callback-power`).
 */
export function forerunners({ predictors, followed, columns, rows, fit }: WithinPeople): Forerunner[] {
  const told = predictors.map((predictor, at) => {
    const column = columns.first + at;
    const effect = fit.coefficients[column];
    const error = Math.sqrt(fit.covariance[column * columns.size + column]);
    // Only of what may be a forerunner the exact chance is worth another fit.
    const z = effect / error < 1 ? effect / error : likelihoodRoot(rows, fit, column);
    return {
      predictor,
      callbacks: callbacksWith(followed, predictor),
      ratio: Math.exp(effect),
      low: Math.exp(effect - normal95 * error),
      high: Math.exp(effect + normal95 * error),
      chance: 1 - normalShareBelow(z),
    };
  });
  const shares = falseDiscoveryShares(told.map(({ chance }) => chance));
  return told.map((one, at) => ({
    ...one,
    falseDiscoveryShare: shares[at],
    isForerunner: shares[at] <= forerunnerLimit,
  }));
}

/** By how much some findings together change the logarithm of a hazard, and how well that is known. */
export interface JointEffect {
  readonly effect: number;
  readonly deviation: number;
}

/** The effect of those of some predictors that were found on a job. */
export function jointEffect(
  { predictors, columns, fit }: WithinPeople,
  isOne: (predictor: Predictor) => boolean,
  job: number,
): JointEffect {
  const places = predictors.flatMap((predictor, at) =>
    isOne(predictor) && predictor.outcomes[job] === skillOutcome.found ? [columns.first + at] : [],
  );
  const sum = (of: (place: number) => number): number => places.reduce((all, place) => all + of(place), 0);
  const variance = sum((row) => sum((column) => fit.covariance[row * columns.size + column]));
  return { effect: sum((place) => fit.coefficients[place]), deviation: Math.sqrt(variance) };
}

/** The signed root of twice the likelihood that is lost where a coefficient is 0. */
function likelihoodRoot(rows: HazardRows, fit: PenalisedHazardFit, column: number): number {
  const penalties = fit.penalties.slice();
  penalties[column] = nailed;
  const start = fit.coefficients.slice();
  start[column] = 0;
  const without = fitProportionalHazards(rows, penalties, start);
  const lost = fit.penalisedLogLikelihood - (without?.penalisedLogLikelihood ?? fit.penalisedLogLikelihood);
  return Math.sign(fit.coefficients[column]) * Math.sqrt(Math.max(0, 2 * lost));
}

function callbacksWith({ jobs, events }: FollowUps, predictor: Predictor): number {
  return jobs.reduce((sum, job, at) => sum + (events[at] === 1 && predictorValue(predictor, job) === 1 ? 1 : 0), 0);
}
