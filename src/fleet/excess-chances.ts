import { betaShareBelow } from '../numerics/beta-distribution.ts';
import { overDispersion } from './statistics/over-dispersion.ts';
import type { UnitTally } from './unit-counts.ts';

/** Under so many judged jobs nobody is judged, and over-dispersion is not told from fewer units. Common practice, no source. */
export const fewestJobs = 10;
const fewestUnits = 10;
/** Where what is expected is so many times less sure than chance makes it, others hardly ever do such jobs. Common practice, no source. */
const mostUnsure = 4;
/** Of fewer units two or three that stand out are many: more is drawn in at the ends, lest they pass for usual. Common practice, no source. */
const fewUnits = 30;
const cutOfFew = 0.2;
/** 99 of 100 normal numbers are below. */
const normalQuantile99 = 2.326348;

/** How far chance alone takes the units of a grouping. */
export interface ExcessChances {
  /** By unit: the chance that its jobs look so bad, or worse, though it is as others are; NaN where nobody can tell. */
  readonly chances: Float64Array;
  /** By unit: variance of what is found less what is expected, with all that is usual in it [count²]. */
  readonly variances: Float64Array;
  /** Variance between units that chance does not explain [logit²]: as much is taken for usual. */
  readonly usualVariance: number;
}

/**
 * By chance alone, how surely would a unit of this many jobs look as bad as this one does?
 *
 * What was found is held against what others' jobs lead to expect of the same jobs. The tail is the one of Jeffreys' interval, for as many
 * jobs as have the same variance.
 *
 * @param tallies one a unit
 * @param ofMembers by unit, variance since its people differ [count²]; absent for none
 *
 * Source: `brown-cai-dasgupta-2001` (Jeffreys' interval); `spiegelhalter-2005` (additive over-dispersion), here
 * only where it is beyond chance; `wilson-hilferty-1931` for chi-square.
 *
 * @example
 * const like = { found: 5, jobs: 50, expected: 5, byChance: 4.5, variance: 9, notEvaluated: 0, missing: 0 };
 * excessChances([like, like]).chances[0] // 0.4629059
 */
export function excessChances(
  tallies: readonly UnitTally[],
  ofMembers: readonly (number | undefined)[] = [],
): ExcessChances {
  const own = tallies.map(({ variance }, unit) => variance + (ofMembers[unit] ?? 0));
  const isTold = tallies.map(
    ({ jobs, byChance, variance }) => jobs >= fewestJobs && byChance > 0 && variance <= mostUnsure * byChance,
  );
  const told = tallies.flatMap((tally, unit) => (isTold[unit] ? [{ tally, variance: own[unit] }] : []));
  const { ratio, variance: usual } = overDispersion(
    told.map(({ tally, variance }) => (tally.found - tally.expected) / Math.sqrt(variance)),
    told.map(({ tally, variance }) => Math.sqrt(variance) / tally.byChance),
    told.length < fewUnits ? cutOfFew : undefined,
  );
  const isBeyondChance = told.length >= fewestUnits && ratio > highByChance(told.length);
  const usualVariance = isBeyondChance ? usual : 0;
  const variances = Float64Array.from(tallies, ({ byChance }, unit) => own[unit] + usualVariance * byChance ** 2);
  const chances = Float64Array.from(tallies, ({ found, jobs, expected }, unit) => {
    if (!isTold[unit]) return Number.NaN;
    const share = expected / jobs;
    const widened = variances[unit] / (jobs * share * (1 - share));
    return betaShareBelow(share, found / widened + 0.5, (jobs - found) / widened + 0.5);
  });
  return { chances, variances, usualVariance };
}

/** What the ratio of over-dispersion of so many units stays below 99 times of 100 by chance: the quantile of chi-square over the units. */
function highByChance(units: number): number {
  const part = 2 / (9 * (units - 1));
  return ((units - 1) / units) * (1 - part + normalQuantile99 * Math.sqrt(part)) ** 3;
}
