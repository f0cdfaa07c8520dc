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

/** Units with a greater share of all jobs are reckoned job by job, since the model without them is another one. */
const largeShare = 0.005;

/**
 * Each unit beside all others: what the model, fitted again without its own jobs, expects of them, and how well that is known. So a
 * unit neither spoils what it is held against nor is taken for the kind of jobs that it alone does.
 *
 * Source: one step of Newton's from the model of all jobs, textbook (as for leverage and deleted residuals).
 */
export function comparedWithOthers(units: Units, fitted: FittedJobs): Comparison[] {
  const others = new Others(units, fitted);
  return units.ids.map((_, unit) => others.expect(unit));
}

class Others {
  readonly #units: Units;
  readonly #fitted: FittedJobs;
  readonly #size: number;
  /** The row of the job that is looked at. */
  readonly #columns: Int32Array;
  readonly #values: Float64Array;
  /** Information of all jobs and the penalties, row by row, on and below the diagonal. */
  readonly #information: Float64Array;
  /** By unit: sum of the rows of its judged jobs, each times its variance; and of chances and variances. */
  readonly #weights: Float64Array;
  readonly #expected: Float64Array;
  readonly #byChance: Float64Array;
  /** By unit: the jobs that were fitted. */
  readonly #ownFitted: readonly number[][];
  #fittedCount = 0;

  constructor(units: Units, fitted: FittedJobs) {
    const { mix, penalties } = fitted;
    const count = units.ids.length;
    this.#units = units;
    this.#fitted = fitted;
    this.#size = penalties.length;
    this.#columns = new Int32Array(mix.width);
    this.#values = new Float64Array(mix.width);
    this.#information = new Float64Array(this.#size ** 2);
    for (let at = 0; at < this.#size; at += 1) this.#information[at * this.#size + at] = penalties[at];
    this.#weights = new Float64Array(count * this.#size);
    this.#expected = new Float64Array(count);
    this.#byChance = new Float64Array(count);
    this.#ownFitted = units.ids.map(() => []);
    this.#addJobs();
  }

  /** All jobs in their order: what lies apart in memory takes many times as long. */
  #addJobs(): void {
    const { outcomes, chances, isFitted, mix } = this.#fitted;
    for (let job = 0; job < outcomes.length; job += 1) {
      if (outcomes[job] < skillOutcome.clean) continue;
      const unit = this.#units.of[job];
      if (isFitted[job] === 1) {
        this.#fittedCount += 1;
        this.#addInformation(this.#information, job, 1);
        if (unit >= 0) this.#ownFitted[unit].push(job);
      } else if (unit >= 0) mix.row(job, this.#columns, this.#values);
      if (unit < 0) continue;
      const chance = chances[job];
      const weight = chance * (1 - chance);
      this.#expected[unit] += chance;
      this.#byChance[unit] += weight;
      const from = unit * this.#size;
      for (let column = 0; column < mix.width; column += 1)
        this.#weights[from + this.#columns[column]] += weight * this.#values[column];
    }
  }

  expect(unit: number): Comparison {
    const { mix, outcomes, chances } = this.#fitted;
    let [expected, byChance] = [this.#expected[unit], this.#byChance[unit]];
    if (byChance === 0) return { expected, byChance, variance: 0 };
    const fitted = this.#ownFitted[unit];
    const information = this.#information.slice();
    const moved = new Float64Array(this.#size);
    for (const job of fitted) {
      this.#addInformation(information, job, -1);
      const left = (outcomes[job] === skillOutcome.found ? 1 : 0) - chances[job];
      for (let column = 0; column < mix.width; column += 1) moved[this.#columns[column]] -= left * this.#values[column];
    }
    if (fitted.length === this.#fittedCount || !factorSymmetric(information, this.#size))
      return { expected, byChance, variance: Number.POSITIVE_INFINITY };
    solveFactored(information, moved);
    const weights = this.#weights.slice(unit * this.#size, (unit + 1) * this.#size);
    if (fitted.length > largeShare * this.#fittedCount) ({ expected, byChance } = this.#again(unit, moved, weights));
    else for (let at = 0; at < this.#size; at += 1) expected += weights[at] * moved[at];
    const known = weights.slice();
    solveFactored(information, known);
    let variance = byChance;
    for (let at = 0; at < this.#size; at += 1) variance += weights[at] * known[at];
    return { expected, byChance, variance };
  }

  /** Expectation of a unit job by job under moved coefficients; `weights` become those of it. */
  #again(unit: number, moved: Float64Array, weights: Float64Array): Pick<Comparison, 'expected' | 'byChance'> {
    const { mix, outcomes, chances } = this.#fitted;
    weights.fill(0);
    let [expected, byChance] = [0, 0];
    for (const job of jobsByUnit(this.#units)[unit]) {
      if (outcomes[job] < skillOutcome.clean) continue;
      mix.row(job, this.#columns, this.#values);
      let logit = 0;
      for (let column = 0; column < mix.width; column += 1)
        logit += moved[this.#columns[column]] * this.#values[column];
      const odds = (chances[job] / (1 - chances[job])) * Math.exp(logit);
      const chance = odds / (1 + odds);
      const weight = chance * (1 - chance);
      expected += chance;
      byChance += weight;
      for (let column = 0; column < mix.width; column += 1)
        weights[this.#columns[column]] += weight * this.#values[column];
    }
    return { expected, byChance };
  }

  /** Adds the information of a job, or takes it off; its row stays at hand. */
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
