import { betaShareBelow } from '../numerics/beta-distribution.ts';
import { overDispersion } from './statistics/over-dispersion.ts';
import type { Comparison } from './expectation.ts';
import type { UnitTally } from './unit-tallies.ts';

/** Under so many judged jobs nobody is judged, and over-dispersion is not told from fewer units. Common practice, no source. */
export const fewestJobs = 10;
const fewestUnits = 10;
/** Where less than this of what a unit's jobs tell is about the unit, nobody is there to compare it with. Common practice, no source. */
const leastApart = 0.25;
/** Of fewer units two or three that stand out are many: more is drawn in at the ends, lest they pass for usual. Common practice, no source. */
const fewUnits = 30;
const cutOfFew = 0.2;
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
 * @param comparisons one a unit, as the expectation gives them
 *
 * Source: `brown-cai-dasgupta-2001` (Jeffreys' interval); `spiegelhalter-2005` (additive over-dispersion), here
 * only where it is beyond chance; `wilson-hilferty-1931` for chi-square.
 *
 * @example
 * const like = { found: 5, jobs: 50, expected: 5, variance: 4.5, notEvaluated: 0, missing: 0 };
 * excessChances([like, like], [like, like].map(() => ({ variance: 2.25, apart: 0.5 }))).chances[0] // 0.4820502
 */
export function excessChances(tallies: readonly UnitTally[], comparisons: readonly Comparison[]): ExcessChances {
  const isTold = tallies.map(({ jobs }, unit) => jobs >= fewestJobs && comparisons[unit].apart > leastApart);
  const told = tallies.flatMap((tally, unit) =>
    isTold[unit] ? [{ tally, variance: comparisons[unit].variance }] : [],
  );
  const { ratio, variance: usual } = overDispersion(
    told.map(({ tally, variance }) => (tally.found - tally.expected) / Math.sqrt(variance)),
    told.map(({ variance }) => 1 / Math.sqrt(variance)),
    told.length < fewUnits ? cutOfFew : undefined,
  );
  const isBeyondChance = told.length >= fewestUnits && ratio > highByChance(told.length);
  const usualVariance = isBeyondChance ? usual : 0;
  const chances = Float64Array.from(tallies, ({ found, jobs, expected }, unit) => {
    if (!isTold[unit]) return Number.NaN;
    const share = expected / jobs;
    const { variance } = comparisons[unit];
    const widened = (variance * (1 + usualVariance * variance)) / (jobs * share * (1 - share));
    return betaShareBelow(share, found / widened + 0.5, (jobs - found) / widened + 0.5);
  });
  return { chances, usualVariance };
}

/** What the ratio of over-dispersion of so many units stays below 99 times of 100 by chance: the quantile of chi-square over the units. */
function highByChance(units: number): number {
  const part = 2 / (9 * (units - 1));
  return ((units - 1) / units) * (1 - part + normalQuantile99 * Math.sqrt(part)) ** 3;
}
