import { fitLogistic } from '../numerics/penalised-logistic.ts';
import { type Comparison, comparedWithOthers } from './comparison.ts';
import type { FleetJobs, Grouping } from './fleet-jobs.ts';
import type { MixFactorName } from './job-mix.ts';
import { MixColumns } from './mix-columns.ts';
import { fitWithSpreads } from './statistics/estimated-spreads.ts';
import { skillOutcome } from './skill.ts';

/** What was to be expected of jobs. */
export interface Expectation {
  /** Chance of each job to be found, 0…1; NaN where it was not judged. */
  readonly chances: Float64Array;
  /** By unit of a grouping: what the jobs of all others lead to expect of its own. */
  readonly comparisons: (grouping: Grouping) => Comparison[];
}

/** Jobs that the model is fitted to at most, spread evenly over time; all jobs are then given their chance. */
const mostFitted = 12_000;

/**
 * What was to be expected of each job by its mix and season alone, whoever did it: a logistic model over all jobs, whose levels are
 * drawn to nothing the more, the less they differ.
 *
 * @param outcomes of each job, as `skillOutcomes` gives them
 * @param factors on which the expectation rests
 *
 * Source: `schall-1991` for how much levels differ.
 */
export function expectation(jobs: FleetJobs, outcomes: Uint8Array, factors: readonly MixFactorName[]): Expectation {
  const chances = new Float64Array(jobs.count).fill(Number.NaN);
  const judged = judgedJobs(outcomes);
  let found = 0;
  for (let at = 0; at < judged.length; at += 1) if (outcomes[judged[at]] === skillOutcome.found) found += 1;
  if (found === 0 || found === judged.length) {
    const chance = found === 0 ? 0 : 1;
    for (const job of judged) chances[job] = chance;
    return { chances, comparisons: (grouping) => nobodyDiffers(jobs, grouping, judged, chance) };
  }
  const step = Math.max(1, judged.length / mostFitted);
  const fitted = Int32Array.from(
    { length: Math.floor(judged.length / step) },
    (_, at) => judged[Math.floor(at * step)],
  );
  const mix = new MixColumns(jobs, factors);
  const rows = {
    ...mix.rows(fitted),
    successes: Float64Array.from(fitted, (job) => Number(outcomes[job] === skillOutcome.found)),
    trials: new Float64Array(fitted.length).fill(1),
  };
  // How much the levels of each factor differ is told from the data, so that a factor without any effect takes nothing off anybody.
  const model = fitWithSpreads((penalties, start) => fitLogistic(rows, penalties, start), mix.blocks, mix.size);
  if (model === undefined) throw new Error('only what is common to all has no penalty: it can always be told');
  const logits = mix.mixLogits(judged, model.coefficients);
  for (let at = 0; at < judged.length; at += 1) chances[judged[at]] = 1 / (1 + Math.exp(-logits[at]));
  const isFitted = new Uint8Array(jobs.count);
  for (const job of fitted) isFitted[job] = 1;
  const fittedJobs = { mix, outcomes, chances, isFitted, penalties: model.penalties };
  return {
    chances: step === 1 ? chances : asManyAs(found, chances, judged),
    comparisons: (grouping) => comparedWithOthers(jobs.units[grouping], fittedJobs),
  };
}

/** The same chances, shifted so that as many are expected as were found: what was fitted to part of the jobs is near. */
function asManyAs(found: number, chances: Float64Array, judged: Int32Array): Float64Array {
  let [expected, slope] = [0, 0];
  for (let at = 0; at < judged.length; at += 1) {
    expected += chances[judged[at]];
    slope += chances[judged[at]] * (1 - chances[judged[at]]);
  }
  const odds = Math.exp((found - expected) / slope);
  return chances.map((chance) => (odds * chance) / (1 - chance + odds * chance));
}

function nobodyDiffers(jobs: FleetJobs, grouping: Grouping, judged: Int32Array, chance: number): Comparison[] {
  const { ids, of } = jobs.units[grouping];
  const counts = new Float64Array(ids.length);
  for (const job of judged) if (of[job] >= 0) counts[of[job]] += 1;
  return Array.from(counts, (count) => ({ expected: chance * count, byChance: 0, variance: 0 }));
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
