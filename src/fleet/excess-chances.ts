import { betaShareBelow } from '../numerics/beta-distribution.ts';
import { overDispersion } from './over-dispersion.ts';
import type { UnitTally } from './unit-tallies.ts';

/** Under so many judged jobs nobody is judged, and over-dispersion is not told from fewer units. Common practice, no source. */
export const fewestJobs = 10;
const fewestUnits = 10;
/** Where less of the variance than this is left, a unit has nearly all jobs of its kinds: nobody is there to compare it with. */
const leastApart = 0.25;
/** 99 of 100 normal numbers are below. */
const normalQuantile99 = 2.326348;

/** How far chance alone takes the units of a grouping. */
export interface ExcessChances {
  /** By unit: the chance that its jobs look so bad, or worse, though it is as others are; NaN where nobody can tell. */
  readonly chances: Float64Array;
  /** Variance between units that chance does not explain [logit²]: as much is taken for usual. */
  readonly usualVariance: number;
}

/**
 * By chance alone, how surely would a unit of this many jobs look as bad as this one does?
 *
 * What was found is held against what was expected of the same jobs. The tail is the one of Jeffreys' interval, for as many jobs as have the same variance.
 *
 * @param tallies one a unit
 * @param apart as `residualVariances` of the expectation gives them
 *
 * Source: `brown-cai-dasgupta-2001` (Jeffreys' interval); `spiegelhalter-2005` (additive over-dispersion), here
 * only where it is beyond chance; `wilson-hilferty-1931` for chi-square.
 *
 * @example
 * const like = { found: 5, jobs: 50, expected: 5, variance: 4.5, notEvaluated: 0, missing: 0 };
 * excessChances([like, like], [2.25, 2.25]).chances[0] // 0.4718
 */
export function excessChances(tallies: readonly UnitTally[], apart: ArrayLike<number>): ExcessChances {
  const isTold = tallies.map(({ jobs, variance }, unit) => jobs >= fewestJobs && apart[unit] > leastApart * variance);
  const told = tallies.flatMap((tally, unit) => (isTold[unit] ? [{ tally, variance: apart[unit] }] : []));
  const { ratio, variance: usual } = overDispersion(
    told.map(({ tally, variance }) => (tally.found - tally.expected) / Math.sqrt(variance)),
    told.map(({ variance }) => 1 / Math.sqrt(variance)),
  );
  const isBeyondChance = told.length >= fewestUnits && ratio > highByChance(told.length);
  const usualVariance = isBeyondChance ? usual : 0;
  const chances = Float64Array.from(tallies, ({ found, jobs, expected }, unit) => {
    if (!isTold[unit]) return Number.NaN;
    const share = expected / jobs;
    const widened = (apart[unit] * (1 + usualVariance * apart[unit])) / (jobs * share * (1 - share));
    return betaShareBelow(share, found / widened + 0.5, (jobs - found) / widened + 0.5);
  });
  return { chances, usualVariance };
}

/** What the ratio of over-dispersion of so many units stays below 99 times of 100 by chance: the quantile of chi-square over the units. */
function highByChance(units: number): number {
  const part = 2 / (9 * (units - 1));
  return ((units - 1) / units) * (1 - part + normalQuantile99 * Math.sqrt(part)) ** 3;
}
