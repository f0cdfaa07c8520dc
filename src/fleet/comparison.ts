import { factorSymmetric } from '../numerics/factor-symmetric.ts';
import { solveFactored } from '../numerics/solve-factored.ts';
import type { Units } from './fleet-jobs.ts';
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
  return new Others(units, fitted).expect();
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
  /** By unit: the jobs that were fitted. */
  readonly #ownFitted: readonly number[][];
  #fittedCount = 0;

  constructor(units: Units, fitted: FittedJobs) {
    const { mix, penalties, isFitted } = fitted;
    this.#units = units;
    this.#fitted = fitted;
    this.#size = penalties.length;
    this.#columns = new Int32Array(mix.width);
    this.#values = new Float64Array(mix.width);
    this.#information = new Float64Array(this.#size ** 2);
    for (let at = 0; at < this.#size; at += 1) this.#information[at * this.#size + at] = penalties[at];
    this.#ownFitted = units.ids.map(() => []);
    for (let job = 0; job < isFitted.length; job += 1) {
      if (isFitted[job] === 0) continue;
      this.#fittedCount += 1;
      this.#addInformation(this.#information, job, 1);
      if (units.of[job] >= 0) this.#ownFitted[units.of[job]].push(job);
    }
  }

  expect(): Comparison[] {
    const count = this.#units.ids.length;
    const steps = new Float64Array(count * this.#size);
    for (let unit = 0; unit < count; unit += 1) {
      const step = steps.subarray(unit * this.#size, (unit + 1) * this.#size);
      this.#addScore(unit, step);
      const information = this.#ofOthers(unit);
      if (information === undefined) step.fill(0);
      else solveFactored(information, step);
    }
    const { expected, byChance, weights } = this.#moved(steps);
    return this.#units.ids.map((_, unit) => {
      const of = { expected: expected[unit], byChance: byChance[unit] };
      if (of.byChance === 0) return { ...of, variance: 0 };
      const information = this.#ofOthers(unit);
      if (information === undefined) return { ...of, variance: Number.POSITIVE_INFINITY };
      const own = weights.subarray(unit * this.#size, (unit + 1) * this.#size);
      const known = own.slice();
      solveFactored(information, known);
      let variance = of.byChance;
      for (let at = 0; at < this.#size; at += 1) variance += own[at] * known[at];
      return { ...of, variance };
    });
  }

  /** How the likelihood of all other jobs rises with each coefficient: as that of its own falls. */
  #addScore(unit: number, to: Float64Array): void {
    const { mix, outcomes, chances } = this.#fitted;
    for (const job of this.#ownFitted[unit]) {
      mix.row(job, this.#columns, this.#values);
      const left = (outcomes[job] === skillOutcome.found ? 1 : 0) - chances[job];
      for (let column = 0; column < mix.width; column += 1) to[this.#columns[column]] -= left * this.#values[column];
    }
  }

  /** The information of all other jobs, factored; undefined where there are none. */
  #ofOthers(unit: number): Float64Array | undefined {
    const own = this.#ownFitted[unit];
    if (own.length === this.#fittedCount) return undefined;
    const information = this.#information.slice();
    for (const job of own) this.#addInformation(information, job, -1);
    return factorSymmetric(information, this.#size) ? information : undefined;
  }

  /**
   * By unit, what is expected of its jobs once the coefficients have moved by its step, and how that changes with them. All jobs in their
   * order: what lies apart in memory takes many times as long.
   */
  #moved(steps: Float64Array): { expected: Float64Array; byChance: Float64Array; weights: Float64Array } {
    const { mix, outcomes, chances } = this.#fitted;
    const { of, ids } = this.#units;
    const [expected, byChance] = [new Float64Array(ids.length), new Float64Array(ids.length)];
    const weights = new Float64Array(steps.length);
    for (let job = 0; job < outcomes.length; job += 1) {
      const unit = of[job];
      if (unit < 0 || outcomes[job] < skillOutcome.clean) continue;
      mix.row(job, this.#columns, this.#values);
      const from = unit * this.#size;
      let logit = 0;
      for (let column = 0; column < mix.width; column += 1)
        logit += steps[from + this.#columns[column]] * this.#values[column];
      const chance = movedChance(chances[job], logit);
      const weight = chance * (1 - chance);
      expected[unit] += chance;
      byChance[unit] += weight;
      for (let column = 0; column < mix.width; column += 1)
        weights[from + this.#columns[column]] += weight * this.#values[column];
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
