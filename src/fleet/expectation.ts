import { fitLogistic, type LogisticFit, type LogisticRows } from '../numerics/penalised-logistic.ts';
import type { FleetJobs, Grouping, Units } from './fleet-jobs.ts';
import type { MixFactorName } from './job-mix.ts';
import { type Block, MixColumns } from './mix-columns.ts';
import { skillOutcome } from './skill.ts';

/** What was to be expected of jobs. */
export interface Expectation {
  /** Chance of each job to be found, 0…1; NaN where it was not judged. */
  readonly chances: Float64Array;
  /** By unit of a grouping, what its jobs can tell of it. */
  readonly comparisons: (grouping: Grouping) => Comparison[];
}

/** How well a unit can be compared with the others. */
export interface Comparison {
  /**
   * Variance of what is found less what is expected, if the unit is as others are [count²]. More than the sum over its jobs where what is
   * expected of them is not well known, less where they themselves made it.
   */
  readonly variance: number;
  /** Share of what its jobs tell that is about the unit, not about its mix of jobs, 0…1: near 0 where nobody else does such jobs. */
  readonly apart: number;
}

/** Jobs that the model is fitted to at most, spread evenly over time; all jobs are then given their chance. */
const mostFitted = 12_000;
/** In larger fleets each kind of job is done by so many that no one of them is taken for the kind. */
const mostPeople = 120;
/** Levels of a factor differ by so much at first, and are looked for within these [logit]. */
const firstSpread = 0.3;
const leastSpread = 0.02;
const mostSpread = 2;
const mostRounds = 30;
const smallChange = 0.01;

/**
 * What was to be expected of each job by its mix and season alone, whoever did it: a logistic model over all jobs, whose levels are
 * drawn to nothing the more, the less they differ. In fleets of up to 120 people these stand in the model as well, so that who
 * does all jobs with some gauge is not taken for the gauge; the expectation is then that of a usual person.
 *
 * @param outcomes of each job, as `skillOutcomes` gives them
 * @param factors on which the expectation rests
 *
 * Source: `schall-1991` for how much levels and people differ.
 */
export function expectation(jobs: FleetJobs, outcomes: Uint8Array, factors: readonly MixFactorName[]): Expectation {
  const chances = new Float64Array(jobs.count).fill(Number.NaN);
  const judged = judgedJobs(outcomes);
  let found = 0;
  for (let at = 0; at < judged.length; at += 1) if (outcomes[judged[at]] === skillOutcome.found) found += 1;
  if (found === 0 || found === judged.length) {
    for (const job of judged) chances[job] = found === 0 ? 0 : 1;
    return {
      chances,
      comparisons: (grouping) => jobs.units[grouping].ids.map(() => ({ variance: 0, apart: 0 })),
    };
  }
  const people = jobs.units.technician.ids.length;
  const mix = new MixColumns(jobs, factors, people > 1 && people <= mostPeople);
  const step = Math.max(1, judged.length / mostFitted);
  const fitted = Int32Array.from(
    { length: Math.floor(judged.length / step) },
    (_, at) => judged[Math.floor(at * step)],
  );
  const model = fittedModel(
    {
      ...mix.rows(fitted),
      successes: Float64Array.from(fitted, (job) => Number(outcomes[job] === skillOutcome.found)),
      trials: new Float64Array(fitted.length).fill(1),
    },
    mix.blocks,
  );
  const logits = mix.mixLogits(judged, model.coefficients);
  for (let at = 0; at < judged.length; at += 1) chances[judged[at]] = 1 / (1 + Math.exp(-logits[at]));
  if (mix.people === undefined) expectAsMany(found, chances, judged);
  return {
    chances,
    comparisons: (grouping) => {
      const variances = jobVariances(jobs.units[grouping], judged, chances);
      return grouping === 'technician' && mix.people !== undefined
        ? comparedInModel(variances, model, mix.people, step)
        : comparedWithAll(variances, judged, chances);
    },
  };
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

/** By unit: variance of what is found if each job has its chance. */
function jobVariances({ ids, of }: Units, judged: Int32Array, chances: Float64Array): Float64Array {
  const variances = new Float64Array(ids.length);
  for (let at = 0; at < judged.length; at += 1) {
    const job = judged[at];
    if (of[job] >= 0) variances[of[job]] += chances[job] * (1 - chances[job]);
  }
  return variances;
}

/** The jobs of a unit are part of what made the common level. */
function comparedWithAll(variances: Float64Array, judged: Int32Array, chances: Float64Array): Comparison[] {
  let all = 0;
  for (let at = 0; at < judged.length; at += 1) all += chances[judged[at]] * (1 - chances[judged[at]]);
  return Array.from(variances, (variance) => ({
    variance: variance * (1 - variance / all),
    apart: 1 - variance / all,
  }));
}

/**
 * What the model tells of each person beside all levels: as much as a person's effect is surer than before. What is found beyond the mix
 * alone is told from what is found beyond mix and person together, whose variance the model gives.
 */
function comparedInModel(
  variances: Float64Array,
  { covariance, penalties }: Model,
  people: Block,
  step: number,
): Comparison[] {
  const size = penalties.length;
  return Array.from(variances, (variance, unit) => {
    const at = people.first + unit;
    const [uncertain, penalty, inFitted] = [covariance[at * size + at], penalties[at], variance / step];
    if (variance === 0) return { variance: 0, apart: 0 };
    const told = Math.max(0, 1 / uncertain - penalty);
    return {
      variance: variance * ((penalty + inFitted) * uncertain) ** 2 * (told / inFitted),
      apart: told / inFitted,
    };
  });
}

interface Model extends LogisticFit {
  readonly penalties: Float64Array;
}

/** How much the levels of each factor differ is told from the data, so that a factor without any effect takes nothing off anybody. */
function fittedModel(rows: LogisticRows, blocks: readonly Block[]): Model {
  const penalties = new Float64Array(blocks.at(-1)?.end ?? 1).fill(1 / firstSpread ** 2);
  penalties[0] = 0;
  let start: Float64Array = new Float64Array(penalties.length);
  for (let round = 1; ; round += 1) {
    const fit = fitLogistic(rows, penalties, start);
    if (fit === undefined) throw new Error('only what is common to all has no penalty: it can always be told');
    const next = blocks.map(({ first, end }) => spreadOf(fit, penalties, first, end));
    const moved = blocks.reduce(
      (most, { first }, at) => Math.max(most, Math.abs(next[at] - 1 / Math.sqrt(penalties[first]))),
      0,
    );
    if (moved < smallChange || round === mostRounds) return { ...fit, penalties };
    for (const [at, { first, end }] of blocks.entries()) penalties.fill(1 / next[at] ** 2, first, end);
    start = fit.coefficients;
  }
}

/** The standard deviation under which a block's coefficients and their uncertainty are what they are. */
function spreadOf(
  { coefficients, covariance }: LogisticFit,
  penalties: Float64Array,
  first: number,
  end: number,
): number {
  let [squares, known] = [0, 0];
  for (let at = first; at < end; at += 1) {
    squares += coefficients[at] ** 2;
    known += 1 - penalties[at] * covariance[at * penalties.length + at];
  }
  return Math.min(mostSpread, Math.max(leastSpread, known > 1e-9 ? Math.sqrt(squares / known) : leastSpread));
}

/** Shifts all chances a little, so that as many are expected as were found: what was fitted to part of the jobs is near. */
function expectAsMany(found: number, chances: Float64Array, judged: Int32Array): void {
  let [expected, slope] = [0, 0];
  for (let at = 0; at < judged.length; at += 1) {
    const chance = chances[judged[at]];
    expected += chance;
    slope += chance * (1 - chance);
  }
  const odds = Math.exp((found - expected) / slope);
  for (let at = 0; at < judged.length; at += 1) {
    const chance = chances[judged[at]];
    chances[judged[at]] = (odds * chance) / (1 - chance + odds * chance);
  }
}
