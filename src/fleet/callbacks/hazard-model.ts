import { fitProportionalHazards, type HazardFit, type HazardRows } from '../../numerics/proportional-hazards.ts';
import type { FleetJobs } from '../fleet-jobs.ts';
import { jobFactorNames } from '../job-mix.ts';
import { MixColumns } from '../mix-columns.ts';
import { skillOutcome } from '../skill.ts';
import { type Block, fitWithSpreads } from '../statistics/estimated-spreads.ts';
import type { FollowUps, SomeFollowUps } from './follow-up.ts';
import { type Predictor, predictorValue } from './predictors.ts';

/** Jobs are told apart by when they were done in so many parts, each with as many of them: work and records change over the years. */
const parts = 6;
/** Jobs over which it is worked out at most. */
const mostCompared = 20_000;
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
    const days = Array.from(followed, (job) => jobs.days[job]).sort((a, b) => a - b);
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

  /** Writes the columns of a job, and what stands in them, from a place on; the columns there must be −1. */
  row(job: number, columns: Int32Array, values: Float64Array, from = 0): void {
    this.#mix.row(job, columns, values, from);
    let at = from + this.#mix.width;
    const add = (column: number, value: number): void => {
      columns[at] = column;
      values[at] = value;
      at += 1;
    };
    const { first, end } = this.blocks[this.#mix.blocks.length];
    add(first + this.#bounds.filter((bound) => bound <= this.#days[job]).length, 1);
    for (const [place, pattern] of this.#patterns.entries()) if (!isJudged(pattern, job)) add(end + place, 1);
    for (const [place, predictor] of this.#predictors.entries()) {
      const value = predictorValue(predictor, job);
      if (value !== 0) add(this.first + place, value);
    }
  }
}

const isJudged = ({ outcomes }: Predictor, job: number): boolean => outcomes[job] >= skillOutcome.clean;

/** Predictors of which each could not be judged on other jobs than those before it. */
function patternsOf(followed: Int32Array, predictors: readonly Predictor[]): Predictor[] {
  const kept: Predictor[] = [];
  for (const predictor of predictors) {
    const unjudged = followed.length - predictor.judged;
    if (unjudged === 0 || predictor.judged === 0) continue;
    if (!kept.some((other) => correlation(followed, other, predictor) >= samePattern)) kept.push(predictor);
  }
  return kept;
}

/** Of whether two predictors could be judged. */
function correlation(followed: Int32Array, one: Predictor, other: Predictor): number {
  const step = Math.max(1, followed.length / mostCompared);
  let [count, ones, others, both] = [0, 0, 0, 0];
  for (let at = 0; at < followed.length; at += step) {
    const job = followed[Math.floor(at)];
    const [a, b] = [Number(isJudged(one, job)), Number(isJudged(other, job))];
    count += 1;
    ones += a;
    others += b;
    both += a * b;
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
