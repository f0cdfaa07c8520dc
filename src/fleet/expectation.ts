import { fitLogistic, type LogisticFit, type LogisticRows } from '../numerics/penalised-logistic.ts';
import type { FleetJobs, Units } from './fleet-jobs.ts';
import type { MixFactorName } from './job-mix.ts';
import { skillOutcome } from './skill.ts';

/** Jobs that the model is fitted to at most, spread evenly over time; all jobs are then given their chance. */
const mostFitted = 20_000;
/** Levels of a factor differ by so much at first, and are looked for within these [logit]. */
const firstSpread = 0.2;
const leastSpread = 0.02;
const mostSpread = 2;
const mostRounds = 30;
const smallChange = 0.01;
const daysOfYear = 365.25;

/** What was to be expected of jobs. */
export interface Expectation {
  /** Chance of each job to be found, 0…1; NaN where it was not judged. */
  readonly chances: Float64Array;
  /**
   * By unit: how far from what is expected of its jobs chance alone takes what is found, as a variance [count²]. Less than the sum over
   * the jobs, since they are part of what made the expectation; near 0 where the unit has all jobs of its kinds, and nothing is left to
   * tell by.
   */
  readonly residualVariances: (units: Units) => Float64Array;
}

/**
 * What was to be expected of each job by its mix and season alone, whoever did it: a logistic model over all jobs, whose levels are
 * drawn to nothing the more, the less they differ. Levels stand beside each other, "not on record" among them; the season is one wave
 * a year. Who alone does all jobs of a kind is what is expected of that kind: nothing tells them apart, and nobody is blamed.
 *
 * @param outcomes of each job, as `skillOutcomes` gives them
 * @param factors on which the expectation rests
 *
 * Source: `schall-1991` for how much the levels differ.
 */
export function expectation(jobs: FleetJobs, outcomes: Uint8Array, factors: readonly MixFactorName[]): Expectation {
  const chances = new Float64Array(jobs.count).fill(Number.NaN);
  const judged = judgedJobs(outcomes);
  const found = judged.reduce((sum, job) => sum + Number(outcomes[job] === skillOutcome.found), 0);
  if (found === 0 || found === judged.length) {
    for (const job of judged) chances[job] = found === 0 ? 0 : 1;
    return { chances, residualVariances: ({ ids }) => new Float64Array(ids.length) };
  }
  const step = Math.max(1, judged.length / mostFitted);
  const fitted = Int32Array.from(
    { length: Math.floor(judged.length / step) },
    (_, at) => judged[Math.floor(at * step)],
  );
  const mix = new MixColumns(jobs, factors);
  const model = fittedModel(
    {
      ...mix.rows(fitted),
      successes: Float64Array.from(fitted, (job) => Number(outcomes[job] === skillOutcome.found)),
      trials: new Float64Array(fitted.length).fill(1),
    },
    mix.blocks,
  );
  const logits = Float64Array.from(judged, (job) => mix.sum(job, model.coefficients));
  const shift = shiftTo(found, logits);
  for (const [at, job] of judged.entries()) chances[job] = 1 / (1 + Math.exp(-(logits[at] + shift)));
  return { chances, residualVariances: (units) => residualVariances(units, { mix, judged, chances, model, step }) };
}

interface FittedChances {
  readonly mix: MixColumns;
  readonly judged: Int32Array;
  readonly chances: Float64Array;
  readonly model: LogisticFit;
  /** One of so many jobs was fitted. */
  readonly step: number;
}

function residualVariances({ ids, of }: Units, { mix, judged, chances, model, step }: FittedChances): Float64Array {
  const size = model.coefficients.length;
  const variances = new Float64Array(ids.length);
  const weights = new Float64Array(ids.length * size);
  for (const job of judged) {
    const unit = of[job];
    if (unit < 0) continue;
    const weight = chances[job] * (1 - chances[job]);
    variances[unit] += weight;
    if (step === 1) mix.add(job, weight, weights.subarray(unit * size, (unit + 1) * size));
  }
  // Where few of the jobs were fitted, only what is common to all was made by all of them.
  const all = judged.reduce((sum, job) => sum + chances[job] * (1 - chances[job]), 0);
  return variances.map((variance, unit) => {
    if (step > 1) return variance * (1 - variance / all);
    let known = 0;
    for (let row = 0; row < size; row += 1) {
      const weight = weights[unit * size + row];
      if (weight === 0) continue;
      for (let column = 0; column < size; column += 1)
        known += weight * weights[unit * size + column] * model.covariance[row * size + column];
    }
    return Math.max(0, variance - known);
  });
}

function judgedJobs(outcomes: Uint8Array): Int32Array {
  const judged = new Int32Array(outcomes.length);
  let count = 0;
  for (let job = 0; job < outcomes.length; job += 1)
    if (outcomes[job] >= skillOutcome.clean) {
      judged[count] = job;
      count += 1;
    }
  return judged.subarray(0, count);
}

/** Coefficients in a row. */
interface Block {
  readonly first: number;
  readonly end: number;
}

/** Jobs as rows of the model: what is common to all, the two columns of the season, then the levels of each factor. */
class MixColumns {
  readonly blocks: readonly Block[];
  readonly #days: Int32Array;
  readonly #levels: readonly Uint8Array[];
  readonly #firsts: readonly number[];

  constructor(jobs: FleetJobs, factors: readonly MixFactorName[]) {
    this.#days = jobs.days;
    this.#levels = factors.map((name) => jobs.mix[name]);
    const season = { first: 1, end: 3 };
    this.blocks = this.#levels.reduce<readonly Block[]>(
      (blocks, levels) => {
        const first = blocks.at(-1)?.end ?? season.end;
        return [...blocks, { first, end: first + levels.reduce((most, level) => Math.max(most, level), 0) + 1 }];
      },
      [season],
    );
    this.#firsts = this.blocks.slice(1).map(({ first }) => first);
  }

  rows(of: Int32Array): Pick<LogisticRows, 'width' | 'columns' | 'values'> {
    const width = this.#levels.length + 3;
    const columns = new Int32Array(of.length * width);
    const values = new Float64Array(of.length * width).fill(1);
    for (const [row, job] of of.entries()) {
      const start = row * width;
      [columns[start + 1], columns[start + 2]] = [1, 2];
      [values[start + 1], values[start + 2]] = this.#season(job);
      for (const [at, levels] of this.#levels.entries()) columns[start + 3 + at] = this.#firsts[at] + levels[job];
    }
    return { width, columns, values };
  }

  /** What a job's coefficients come to. */
  sum(job: number, coefficients: Float64Array): number {
    const [cosine, sine] = this.#season(job);
    let sum = coefficients[0] + coefficients[1] * cosine + coefficients[2] * sine;
    for (let at = 0; at < this.#levels.length; at += 1) sum += coefficients[this.#firsts[at] + this.#levels[at][job]];
    return sum;
  }

  /** Adds a job's row, times a weight, to a sum of rows. */
  add(job: number, weight: number, to: Float64Array): void {
    const [cosine, sine] = this.#season(job);
    to[0] += weight;
    to[1] += weight * cosine;
    to[2] += weight * sine;
    for (let at = 0; at < this.#levels.length; at += 1) to[this.#firsts[at] + this.#levels[at][job]] += weight;
  }

  #season(job: number): [number, number] {
    const angle = (2 * Math.PI * this.#days[job]) / daysOfYear;
    return [Math.cos(angle), Math.sin(angle)];
  }
}

/** How much the levels of each factor differ is told from the data, so that a factor without any effect takes nothing off anybody. */
function fittedModel(rows: LogisticRows, blocks: readonly Block[]): LogisticFit {
  const penalties = new Float64Array(blocks.at(-1)?.end ?? 1).fill(1 / firstSpread ** 2);
  penalties[0] = 0;
  for (let round = 1; ; round += 1) {
    const fit = fitLogistic(rows, penalties);
    if (fit === undefined) throw new Error('only what is common to all has no penalty: it can always be told');
    let moved = 0;
    for (const { first, end } of blocks) {
      let [squares, known] = [0, 0];
      for (let at = first; at < end; at += 1) {
        squares += fit.coefficients[at] ** 2;
        known += 1 - penalties[at] * fit.covariance[at * penalties.length + at];
      }
      const found = known > 1e-9 ? Math.sqrt(squares / known) : leastSpread;
      const spread = Math.min(mostSpread, Math.max(leastSpread, found));
      moved = Math.max(moved, Math.abs(spread - 1 / Math.sqrt(penalties[first])));
      penalties.fill(1 / spread ** 2, first, end);
    }
    if (moved < smallChange || round === mostRounds) return fit;
  }
}

/** The shift of all logits under which as many are expected as were found. */
function shiftTo(found: number, logits: Float64Array): number {
  let shift = 0;
  for (let step = 0; step < 20; step += 1) {
    let [expected, slope] = [0, 0];
    for (const logit of logits) {
      const chance = 1 / (1 + Math.exp(-(logit + shift)));
      expected += chance;
      slope += chance * (1 - chance);
    }
    const change = (found - expected) / slope;
    shift += change;
    if (Math.abs(change) < 1e-9) break;
  }
  return shift;
}
