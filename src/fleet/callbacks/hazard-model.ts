import { fitProportionalHazards, type HazardFit, type HazardRows } from '../../numerics/proportional-hazards.ts';
import type { FleetJobs } from '../fleet-jobs.ts';
import { jobFactorNames } from '../job-mix.ts';
import { MixColumns } from '../mix-columns.ts';
import { skillOutcome } from '../skill.ts';
import { type Block, fitWithSpreads } from '../statistics/estimated-spreads.ts';
import type { FollowUps, SomeFollowUps } from './follow-up.ts';
import { type Predictor, predictorValue, sampleOf } from './predictors.ts';

/** Jobs are told apart by when they were done in so many parts, each with as many of them: work and records change over the years. */
const parts = 6;
/** What could not be judged on the same jobs, by this correlation, is one. Common practice, no source. */
const samePattern = 0.9;

/** Jobs as rows of a model of hazards: the mix of jobs, when they were done, what could not be judged on them, then each predictor. */
export class HazardColumns {
  readonly size: number;
  /** The column of the first predictor. */
  readonly first: number;
  readonly width: number;
  /** All but the predictors: what belongs together is drawn in together. */
  readonly blocks: readonly Block[];
  readonly #mix: MixColumns;
  readonly #predictors: readonly Predictor[];
  /** First days of all parts but the first. */
  readonly #bounds: readonly number[];
  readonly #days: Int32Array;
  /** Predictors that were not judged on other jobs each. */
  readonly #patterns: readonly Predictor[];

  constructor(jobs: FleetJobs, { jobs: followed }: FollowUps, predictors: readonly Predictor[]) {
    this.#mix = new MixColumns(jobs, jobFactorNames);
    this.#days = jobs.days;
    const days = followed.map((job) => jobs.days[job]).sort();
    const bounds = Array.from(
      { length: parts - 1 },
      (_, at) => days[Math.floor(((at + 1) * days.length) / parts)] ?? 0,
    );
    this.#bounds = [...new Set(bounds)];
    this.#patterns = patternsOf(followed, predictors);
    const when = { first: this.#mix.size, end: this.#mix.size + this.#bounds.length + 1 };
    const unjudged = { first: when.end, end: when.end + this.#patterns.length };
    this.blocks = [...this.#mix.blocks, when, ...(this.#patterns.length === 0 ? [] : [unjudged])];
    this.first = unjudged.end;
    this.size = this.first + predictors.length;
    this.width = this.#mix.width + 1 + this.#patterns.length + predictors.length;
    this.#predictors = predictors;
  }

  /** Rows of jobs as they were watched. */
  rows(followed: SomeFollowUps): HazardRows {
    const { jobs, entries, stops, events, weights } = followed;
    const columns = new Int32Array(jobs.length * this.width).fill(-1);
    const values = new Float64Array(columns.length);
    for (let row = 0; row < jobs.length; row += 1) this.row(jobs[row], columns, values, row * this.width);
    return {
      width: this.width,
      columns,
      values,
      entries,
      stops,
      events,
      ...(weights === undefined ? {} : { weights }),
    };
  }

  /**
   * Writes the columns of a job, and what stands in them, from a place on.
   *
   * @returns how many there are
   */
  row(job: number, columns: Int32Array, values: Float64Array, from = 0): number {
    this.#mix.row(job, columns, values, from);
    let at = from + this.#mix.width;
    const { first, end } = this.blocks[this.#mix.blocks.length];
    columns[at] = first + this.#part(this.#days[job]);
    values[at] = 1;
    at += 1;
    for (let place = 0; place < this.#patterns.length; place += 1) {
      if (isJudged(this.#patterns[place], job)) continue;
      columns[at] = end + place;
      values[at] = 1;
      at += 1;
    }
    for (let place = 0; place < this.#predictors.length; place += 1) {
      const value = predictorValue(this.#predictors[place], job);
      if (value === 0) continue;
      columns[at] = this.first + place;
      values[at] = value;
      at += 1;
    }
    return at - from;
  }

  /** In which part of the jobs a day is. */
  #part(day: number): number {
    let part = 0;
    while (part < this.#bounds.length && this.#bounds[part] <= day) part += 1;
    return part;
  }
}

const isJudged = ({ outcomes }: Predictor, job: number): boolean => outcomes[job] >= skillOutcome.clean;

/** Predictors of which each could not be judged on other jobs than those before it. */
function patternsOf(followed: Int32Array, predictors: readonly Predictor[]): Predictor[] {
  const sample = sampleOf(followed);
  const kept: { readonly predictor: Predictor; readonly pattern: Uint8Array }[] = [];
  for (const predictor of predictors) {
    const unjudged = followed.length - predictor.judged;
    if (unjudged === 0 || predictor.judged === 0) continue;
    const pattern = Uint8Array.from(sample, (job) => Number(isJudged(predictor, job)));
    if (!kept.some((other) => correlation(other.pattern, pattern) >= samePattern)) kept.push({ predictor, pattern });
  }
  return kept.map(({ predictor }) => predictor);
}

/** Of two rows of 0 and 1. */
function correlation(one: Uint8Array, other: Uint8Array): number {
  const count = one.length;
  let [ones, others, both] = [0, 0, 0];
  for (let at = 0; at < count; at += 1) {
    ones += one[at];
    others += other[at];
    both += one[at] & other[at];
  }
  const [p, q] = [ones / count, others / count];
  return (both / count - p * q) / Math.sqrt(p * (1 - p) * q * (1 - q));
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
  { blocks: others, first, size }: HazardColumns,
  rows: HazardRows,
  draws: 'drawn-in' | 'wide',
): PenalisedHazardFit | undefined {
  // What all rows have in common is no part of a model of hazards.
  const fixed = new Float64Array(size).fill(1 / wideSpread ** 2, first).fill(1, 0, 1);
  const blocks = draws === 'wide' || first === size ? others : [...others, { first, end: size }];
  return fitWithSpreads((penalties, start) => fitProportionalHazards(rows, penalties, start), blocks, size, fixed);
}
