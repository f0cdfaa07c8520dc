import { fitProportionalHazards, type HazardFit, type HazardRows } from '../../numerics/proportional-hazards.ts';
import type { FleetJobs } from '../fleet-jobs.ts';
import { jobFactorNames } from '../job-mix.ts';
import { MixColumns } from '../mix-columns.ts';
import { fitWithSpreads } from '../statistics/estimated-spreads.ts';
import type { FollowUps } from './follow-up.ts';
import { type Predictor, predictorValue } from './predictors.ts';

/** Jobs as rows of a model of hazards: the mix of jobs, then each predictor. */
export class HazardColumns {
  /** Columns of the mix, then of the predictors. */
  readonly size: number;
  /** The column of the first predictor. */
  readonly first: number;
  readonly width: number;
  readonly mix: MixColumns;
  readonly #predictors: readonly Predictor[];

  constructor(jobs: FleetJobs, predictors: readonly Predictor[]) {
    this.mix = new MixColumns(jobs, jobFactorNames);
    this.first = this.mix.size;
    this.size = this.mix.size + predictors.length;
    this.width = this.mix.width + predictors.length;
    this.#predictors = predictors;
  }

  /** Rows of jobs as they were watched. */
  rows(followed: FollowUps, events: Uint8Array = followed.events): HazardRows {
    const columns = new Int32Array(followed.jobs.length * this.width).fill(-1);
    const values = new Float64Array(columns.length);
    for (let row = 0; row < followed.jobs.length; row += 1)
      this.row(followed.jobs[row], columns, values, row * this.width);
    return { width: this.width, columns, values, entries: followed.entries, stops: followed.stops, events };
  }

  /** Writes the columns of a job, and what stands in them, from a place on; the columns there must be −1. */
  row(job: number, columns: Int32Array, values: Float64Array, from = 0): void {
    this.mix.row(job, columns, values, from);
    for (const [at, predictor] of this.#predictors.entries()) {
      const value = predictorValue(predictor, job);
      if (value === 0) continue;
      columns[from + this.mix.width + at] = this.first + at;
      values[from + this.mix.width + at] = value;
    }
  }
}

export type PenalisedHazardFit = HazardFit & { readonly penalties: Float64Array };

/** Any hazard ratio that ever was lies well within this of 1 [logarithm]: keeps one that no callback speaks for from running away. */
const wideSpread = 2;

/**
 * Fits how the hazard goes with predictors and the mix of jobs, whose levels are drawn to nothing the more, the less they differ.
 *
 * @param draws whether the predictors are drawn in likewise, for the best forecast, or left as wide as they are, for honest intervals
 * @returns undefined where nothing can be told
 */
export function fitHazards(
  { mix, first, size }: HazardColumns,
  rows: HazardRows,
  draws: 'drawn-in' | 'wide',
): PenalisedHazardFit | undefined {
  // What all rows have in common is no part of a model of hazards.
  const fixed = new Float64Array(size).fill(1 / wideSpread ** 2, first).fill(1, 0, 1);
  const blocks = draws === 'wide' || first === size ? mix.blocks : [...mix.blocks, { first, end: size }];
  return fitWithSpreads((penalties, start) => fitProportionalHazards(rows, penalties, start), blocks, size, fixed);
}
