import { rowEffect } from '../../numerics/proportional-hazards.ts';
import type { FleetJobs } from '../fleet-jobs.ts';
import { skillOutcome } from '../skill.ts';
import { AgeHazard } from './age-hazard.ts';
import { type FollowUps, type SomeFollowUps, someFollowed } from './follow-up.ts';
import { fitHazards, HazardColumns, type PenalisedHazardFit } from './hazard-model.ts';
import type { Predictor } from './predictors.ts';

/** Chance of a callback, 0…1, with its 95 % interval. */
export interface CallbackRisk {
  readonly risk: number;
  readonly low: number;
  readonly high: number;
}

/** A predictor that was found on a job, and by how much it multiplies the hazard. */
export interface RiskReason {
  readonly predictor: Predictor;
  readonly ratio: number;
}

const normal95 = 1.959964;

/**
 * The chance of a callback of each job: the hazard that all jobs have in common by the days gone by, times what was found on it and what
 * kind of job it is. Who did it is left out: a list of jobs to look at is no list of people.
 *
 * Accuracy: by simulation (`npm run callback-power`).
 */
export class RiskModel {
  /** Callbacks that it rests on. */
  readonly callbacks: number;
  readonly predictors: readonly Predictor[];
  readonly #fit: PenalisedHazardFit;
  readonly #columns: HazardColumns;
  readonly #baseline: AgeHazard;
  /** What stands in each column on average. */
  readonly #means: Float64Array;
  /** The columns of the job that is looked at, and what stands in them. */
  readonly #rowColumns: Int32Array;
  readonly #rowValues: Float64Array;

  private constructor(
    followed: SomeFollowUps,
    columns: HazardColumns,
    predictors: readonly Predictor[],
    fit: PenalisedHazardFit,
    baseline: AgeHazard,
  ) {
    this.callbacks = followed.events.reduce((sum, event) => sum + event, 0);
    this.#columns = columns;
    this.predictors = predictors;
    this.#fit = fit;
    this.#baseline = baseline;
    this.#rowColumns = new Int32Array(columns.width);
    this.#rowValues = new Float64Array(columns.width);
    this.#means = new Float64Array(columns.size);
    const { jobs, weights } = followed;
    const all = weights === undefined ? jobs.length : weights.reduce((sum, weight) => sum + weight, 0);
    for (let row = 0; row < jobs.length; row += 1) {
      const weight = weights === undefined ? 1 : weights[row];
      const filled = columns.row(jobs[row], this.#rowColumns, this.#rowValues);
      for (let at = 0; at < filled; at += 1) this.#means[this.#rowColumns[at]] += (this.#rowValues[at] * weight) / all;
    }
  }

  /** @returns undefined where nothing can be told */
  static fit(jobs: FleetJobs, followed: FollowUps, predictors: readonly Predictor[]): RiskModel | undefined {
    const some = someFollowed(followed);
    const columns = new HazardColumns(jobs, followed, predictors);
    const rows = columns.rows(some);
    const fit = fitHazards(columns, rows, 'drawn-in');
    if (fit === undefined || !fit.isConverged) return undefined;
    const baseline = new AgeHazard(some, (row) => Math.exp(rowEffect(rows, row, fit.coefficients)));
    return new RiskModel(some, columns, predictors, fit, baseline);
  }

  /** Hazard of a job beside the one that all jobs have in common. */
  relative(job: number): number {
    const filled = this.#columns.row(job, this.#rowColumns, this.#rowValues);
    let sum = 0;
    for (let at = 0; at < filled; at += 1) sum += this.#fit.coefficients[this.#rowColumns[at]] * this.#rowValues[at];
    return Math.exp(sum);
  }

  /** Hazard of a job that adds up between two ages [days], the first left out. */
  hazard(job: number, fromAge: number, toAge: number): number {
    return this.relative(job) * this.common(fromAge, toAge);
  }

  /** The hazard that all jobs have in common, added up between two ages [days], the first left out. */
  common(fromAge: number, toAge: number): number {
    return this.#baseline.between(fromAge, toAge);
  }

  /** Chance of a callback between two ages [days] of a job that had none before. */
  risk(job: number, fromAge: number, toAge: number): CallbackRisk {
    const hazard = this.hazard(job, fromAge, toAge);
    // How well the job's kind is known beside the average, and how well the average.
    const away = new Float64Array(this.#columns.size);
    const filled = this.#columns.row(job, this.#rowColumns, this.#rowValues);
    for (let at = 0; at < filled; at += 1) away[this.#rowColumns[at]] = this.#rowValues[at];
    for (let column = 0; column < away.length; column += 1) away[column] -= this.#means[column];
    const deviation = Math.sqrt(quadraticForm(this.#fit.covariance, away) + 1 / this.callbacks);
    const [risk, low, high] = [0, -normal95, normal95].map((z) => -Math.expm1(-hazard * Math.exp(z * deviation)));
    return { risk, low, high };
  }

  /** The predictors found on a job that raise its hazard, the strongest first. */
  reasons(job: number): RiskReason[] {
    return this.predictors
      .map((predictor, at) => ({ predictor, ratio: Math.exp(this.#fit.coefficients[this.#columns.first + at]) }))
      .filter(({ predictor, ratio }) => predictor.outcomes[job] === skillOutcome.found && ratio > 1)
      .sort((a, b) => b.ratio - a.ratio);
  }
}

function quadraticForm(matrix: Float64Array, vector: Float64Array): number {
  let sum = 0;
  for (const [row, left] of vector.entries()) {
    if (left === 0) continue;
    for (const [column, right] of vector.entries()) sum += left * right * matrix[row * vector.length + column];
  }
  return sum;
}
