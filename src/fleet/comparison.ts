import { factorSymmetric } from '../numerics/factor-symmetric.ts';
import { solveFactored } from '../numerics/solve-factored.ts';
import type { Units } from './fleet-jobs.ts';
import { jobsByUnit } from './jobs-by-unit.ts';
import type { MixColumns } from './mix-columns.ts';
import { skillOutcome } from './skill.ts';

/** What the jobs of all others lead to expect of a unit's jobs. */
export interface Comparison {
  /** How many are found if the unit is as others are [count]. */
  readonly expected: number;
  /** Variance of that by chance alone, if the chances were known [count²]. */
  readonly byChance: number;
  /**
   * Variance of what is found less what is expected [count²]: more than by chance, since others' jobs tell the chances no better than
   * they can. Infinite where nobody else is there to compare with.
   */
  readonly variance: number;
}

/** The model that all jobs were fitted to, and the jobs. */
export interface FittedJobs {
  readonly mix: MixColumns;
  readonly outcomes: Uint8Array;
  readonly chances: Float64Array;
  /** 1 for the jobs that the model was fitted to. */
  readonly isFitted: Uint8Array;
  readonly penalties: Float64Array;
}

/**
 * Each unit beside all others: what the model, fitted again without its own jobs, expects of them, and how well that is known. So a
 * unit neither spoils what it is held against nor is taken for the kind of jobs that it alone does.
 *
 * Source: one step of Newton's from the model of all jobs, textbook (as for leverage and deleted residuals).
 */
export function comparedWithOthers(units: Units, fitted: FittedJobs): Comparison[] {
  const others = new Others(fitted);
  return jobsByUnit(units).map((jobs) => others.expect(jobs));
}

class Others {
  readonly #fitted: FittedJobs;
  readonly #size: number;
  readonly #columns: Int32Array;
  readonly #values: Float64Array;
  /** Information of all jobs and the penalties, row by row, on and below the diagonal. */
  readonly #information: Float64Array;
  readonly #fittedCount: number;

  constructor(fitted: FittedJobs) {
    const { mix, penalties, isFitted } = fitted;
    this.#fitted = fitted;
    this.#size = penalties.length;
    this.#columns = new Int32Array(mix.width);
    this.#values = new Float64Array(mix.width);
    this.#information = new Float64Array(this.#size ** 2);
    for (let at = 0; at < this.#size; at += 1) this.#information[at * this.#size + at] = penalties[at];
    let count = 0;
    for (let job = 0; job < isFitted.length; job += 1) {
      if (isFitted[job] === 0) continue;
      count += 1;
      this.#addInformation(this.#information, job, 1);
    }
    this.#fittedCount = count;
  }

  expect(jobs: Int32Array): Comparison {
    const { mix, outcomes, chances, isFitted } = this.#fitted;
    const information = this.#information.slice();
    const step = new Float64Array(this.#size);
    let [judged, count] = [0, 0];
    for (let at = 0; at < jobs.length; at += 1) {
      const job = jobs[at];
      if (outcomes[job] < skillOutcome.clean) continue;
      judged += 1;
      if (isFitted[job] === 0) continue;
      count += 1;
      mix.row(job, this.#columns, this.#values);
      const left = (outcomes[job] === skillOutcome.found ? 1 : 0) - chances[job];
      for (let column = 0; column < mix.width; column += 1) step[this.#columns[column]] -= left * this.#values[column];
      this.#addInformation(information, job, -1);
    }
    if (judged === 0) return { expected: 0, byChance: 0, variance: 0 };
    const isCompared = count < this.#fittedCount && factorSymmetric(information, this.#size);
    if (isCompared) solveFactored(information, step);
    else step.fill(0);
    const { expected, byChance, weights } = this.#moved(jobs, step);
    if (!isCompared) return { expected, byChance, variance: Number.POSITIVE_INFINITY };
    const known = weights.slice();
    solveFactored(information, known);
    let variance = byChance;
    for (let at = 0; at < this.#size; at += 1) variance += weights[at] * known[at];
    return { expected, byChance, variance };
  }

  /** What is expected of jobs once the coefficients have moved, and how it changes with them. */
  #moved(jobs: Int32Array, step: Float64Array): Omit<Comparison, 'variance'> & { weights: Float64Array } {
    const { mix, outcomes, chances } = this.#fitted;
    const weights = new Float64Array(this.#size);
    let [expected, byChance] = [0, 0];
    for (let at = 0; at < jobs.length; at += 1) {
      const job = jobs[at];
      if (outcomes[job] < skillOutcome.clean) continue;
      mix.row(job, this.#columns, this.#values);
      let logit = 0;
      for (let column = 0; column < mix.width; column += 1) logit += step[this.#columns[column]] * this.#values[column];
      const chance = movedChance(chances[job], logit);
      const weight = chance * (1 - chance);
      expected += chance;
      byChance += weight;
      for (let column = 0; column < mix.width; column += 1)
        weights[this.#columns[column]] += weight * this.#values[column];
    }
    return { expected, byChance, weights };
  }

  #addInformation(to: Float64Array, job: number, sign: 1 | -1): void {
    const { mix, chances } = this.#fitted;
    mix.row(job, this.#columns, this.#values);
    const weight = sign * chances[job] * (1 - chances[job]);
    // The columns of a row ascend.
    for (let one = 0; one < mix.width; one += 1) {
      const row = this.#columns[one] * this.#size;
      const share = weight * this.#values[one];
      for (let two = 0; two <= one; two += 1) to[row + this.#columns[two]] += share * this.#values[two];
    }
  }
}

/**
 * A chance after one step of Newton's, which is a straight line's: far steps are too far, for rare findings on the scale of logits, for
 * few jobs of a kind on that of chances. So the scale is taken that moves it less.
 */
function movedChance(chance: number, logit: number): number {
  const onLine = chance + chance * (1 - chance) * logit;
  const onCurve = chance / (chance + (1 - chance) * Math.exp(-logit));
  return logit > 0 ? Math.min(onLine, onCurve) : Math.max(onLine, onCurve);
}
