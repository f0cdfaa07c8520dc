import { SparseCholesky } from '../../numerics/sparse-cholesky.ts';

/** Jobs that share technician, crew, instruments and what is expected of them. Parallel arrays, one entry a cell. */
export interface CrossedCells {
  /** How many of the jobs have the trait. */
  readonly found: Float64Array;
  readonly jobs: Float64Array;
  /** Logit of what is expected of each, by the mix of jobs alone. */
  readonly expectedLogit: Float64Array;
  /** By grouping, as technician or crew: the unit of each cell, from 0; −1 where none is named. */
  readonly units: readonly Int32Array[];
  /** How many units each grouping has. */
  readonly counts: readonly number[];
}

/** What is the units' own once job mix and all other groupings are taken out; logits. */
export interface CrossedEffects {
  /** How all jobs differ from what was expected. */
  readonly common: number;
  readonly groupings: readonly GroupingEffects[];
  readonly isConverged: boolean;
}

export interface GroupingEffects {
  /** Standard deviation of the units' true effects; 0 where they differ by chance alone. */
  readonly spread: number;
  /** Effect of each unit, drawn to 0 the more the less it is known. */
  readonly effects: Float64Array;
  /** Standard deviation of what is believed of each effect. */
  readonly deviations: Float64Array;
}

const mostRounds = 200;
const smallChange = 1e-4;
/** A spread that moves by less is found: it is never known to a hundredth. */
const smallSpreadChange = 5e-4;
/** Spreads are looked for within these [logit]. */
const leastSpread = 1e-3;
const mostSpread = 5;
/** Below this, odds of units differ by three in a hundred: by nothing. */
const noSpread = 0.03;
const firstSpread = 0.5;
/** A Newton step is no longer than this [logit]. */
const longestStep = 2;

/**
 * Effects of crossed groupings on the odds of a job, as random ones: how much units of each grouping differ is told from the data, and
 * each unit's effect is drawn to 0 accordingly. Where two units never part, as a crew of one and its own hose, both share what is
 * found, and stay as uncertain as that leaves them.
 *
 * Source: `breslow-clayton-1993` (penalised quasi-likelihood); `schall-1991` for the spreads.
 *
 * @example
 * // As many as expected: nobody differs.
 * const alike = { found: Float64Array.of(5, 5), jobs: Float64Array.of(10, 10), expectedLogit: Float64Array.of(0, 0), units: [Int32Array.of(0, 1)], counts: [2] };
 * crossedEffects(alike).groupings[0].spread // 0
 */
export function crossedEffects(cells: CrossedCells): CrossedEffects {
  const model = new CrossedModel(cells);
  let moved = Number.POSITIVE_INFINITY;
  for (let round = 0; round < mostRounds && moved >= smallChange; round += 1) moved = model.improve();
  const isConverged = moved < smallChange;
  return { ...model.effects(), isConverged };
}

class CrossedModel {
  readonly #cells: CrossedCells;
  /** Where the units of each grouping begin among the coefficients; the last coefficient is common to all. */
  readonly #begins: number[];
  readonly #size: number;
  /** The coefficients of each cell, −1 for none. */
  readonly #columns: Int32Array;
  readonly #width: number;
  readonly #solver: SparseCholesky;
  readonly #spreads: number[];
  #coefficients: Float64Array;
  #variances: Float64Array;

  constructor(cells: CrossedCells) {
    const { units, counts, jobs } = cells;
    this.#cells = cells;
    this.#begins = counts.map((_, grouping) => counts.slice(0, grouping).reduce((sum, count) => sum + count, 0));
    this.#size = counts.reduce((sum, count) => sum + count, 0) + 1;
    this.#width = units.length + 1;
    this.#columns = new Int32Array(jobs.length * this.#width);
    for (let cell = 0; cell < jobs.length; cell += 1) {
      for (const [grouping, of] of units.entries())
        this.#columns[cell * this.#width + grouping] = of[cell] < 0 ? -1 : this.#begins[grouping] + of[cell];
      this.#columns[cell * this.#width + units.length] = this.#size - 1;
    }
    this.#solver = new SparseCholesky({ size: this.#size, ...this.#places() });
    this.#spreads = counts.map(() => firstSpread);
    this.#coefficients = new Float64Array(this.#size);
    this.#variances = new Float64Array(this.#size);
  }

  /** Places of the matrix: the diagonal first, then each pair of coefficients of each cell. */
  #places(): { rows: Int32Array; columns: Int32Array } {
    const pairs = (this.#width * (this.#width + 1)) / 2;
    const rows = new Int32Array(this.#size + pairs * this.#cells.jobs.length);
    const columns = rows.slice();
    for (let at = 0; at < this.#size; at += 1) rows[at] = columns[at] = at;
    let entry = this.#size;
    for (let start = 0; start < this.#columns.length; start += this.#width)
      for (let one = 0; one < this.#width; one += 1)
        for (let two = one; two < this.#width; two += 1, entry += 1) {
          const [a, b] = [this.#columns[start + one], this.#columns[start + two]];
          // What is absent adds 0 to the common coefficient.
          rows[entry] = a < 0 || b < 0 ? this.#size - 1 : a;
          columns[entry] = a < 0 || b < 0 ? this.#size - 1 : b;
        }
    return { rows, columns };
  }

  /**
   * One step of Newton's for the effects, then one for the spreads.
   *
   * @returns how far anything moved; NaN where nothing is known, for want of jobs, and all stays where it is
   */
  improve(): number {
    const { found, jobs, expectedLogit } = this.#cells;
    const penalties = this.#penalties();
    const pairs = (this.#width * (this.#width + 1)) / 2;
    const values = new Float64Array(this.#size + pairs * jobs.length);
    values.set(penalties);
    const slopes = this.#coefficients.map((value, at) => -penalties[at] * value);
    let entry = this.#size;
    for (let cell = 0; cell < jobs.length; cell += 1) {
      const start = cell * this.#width;
      let logit = expectedLogit[cell];
      for (let one = 0; one < this.#width; one += 1)
        if (this.#columns[start + one] >= 0) logit += this.#coefficients[this.#columns[start + one]];
      const chance = 1 / (1 + Math.exp(-logit));
      const weight = jobs[cell] * chance * (1 - chance);
      for (let one = 0; one < this.#width; one += 1) {
        const a = this.#columns[start + one];
        if (a >= 0) slopes[a] += found[cell] - jobs[cell] * chance;
        for (let two = one; two < this.#width; two += 1, entry += 1)
          if (a >= 0 && this.#columns[start + two] >= 0) values[entry] = weight;
      }
    }
    if (!this.#solver.factor(values)) return Number.NaN;
    const step = this.#solver.solve(slopes);
    const longest = step.reduce((most, change) => Math.max(most, Math.abs(change)), 0);
    const share = Math.min(1, longestStep / longest);
    this.#coefficients = this.#coefficients.map((value, at) => value + (longest === 0 ? 0 : share * step[at]));
    this.#variances = this.#solver.inverse().diagonal;
    const spreadMoved = this.#improveSpreads();
    return Math.max(longest, spreadMoved < smallSpreadChange ? 0 : spreadMoved);
  }

  #penalties(): Float64Array {
    const penalties = new Float64Array(this.#size);
    for (const [grouping, spread] of this.#spreads.entries())
      penalties.fill(1 / spread ** 2, this.#begins[grouping], this.#begins[grouping] + this.#cells.counts[grouping]);
    return penalties;
  }

  /** The spread under which effects and their uncertainty are what they are. */
  #improveSpreads(): number {
    let moved = 0;
    for (const [grouping, spread] of this.#spreads.entries()) {
      const [from, end] = [this.#begins[grouping], this.#begins[grouping] + this.#cells.counts[grouping]];
      let [squares, known] = [0, 0];
      for (let at = from; at < end; at += 1) {
        squares += this.#coefficients[at] ** 2;
        known += 1 - this.#variances[at] / spread ** 2;
      }
      const next = known > 1e-9 ? Math.sqrt(squares / known) : leastSpread;
      this.#spreads[grouping] = Math.min(mostSpread, Math.max(leastSpread, next));
      moved = Math.max(moved, Math.abs(this.#spreads[grouping] - spread));
    }
    return moved;
  }

  effects(): Omit<CrossedEffects, 'isConverged'> {
    return {
      common: this.#coefficients[this.#size - 1],
      groupings: this.#spreads.map((spread, grouping) => {
        const [from, end] = [this.#begins[grouping], this.#begins[grouping] + this.#cells.counts[grouping]];
        return {
          spread: spread <= noSpread ? 0 : spread,
          effects: this.#coefficients.slice(from, end),
          deviations: this.#variances.slice(from, end).map(Math.sqrt),
        };
      }),
    };
  }
}
