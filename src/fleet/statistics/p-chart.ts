import { binomialQuantile } from '../../numerics/binomial-distribution.ts';
import type { Tally } from './shrunken-shares.ts';

/** Jobs of one period and, where it is known, what was expected of these very jobs. */
export interface PeriodTally extends Tally {
  readonly expectation?: Expectation;
}

/** What chance makes of jobs of which each was expected to have the trait by its own mix and season. */
export interface Expectation {
  /** Sum of the chances: how many were to be found [count]. */
  readonly found: number;
  /** Sum of chance · (1 − chance) [count²]. */
  readonly variance: number;
}

/** Shares of periods beside the limits that chance keeps to. */
export interface PChart {
  /** Share over all periods [ratio]. */
  readonly centre: number;
  readonly points: readonly PChartPoint[];
}

export interface PChartPoint {
  readonly share: number;
  /** What was expected of the period; the share over all where nothing tells. */
  readonly centre: number;
  readonly low: number;
  readonly high: number;
  readonly isOut: boolean;
}

/** Limits around the share over all stand so many standard errors from it. */
const width = 3;

/**
 * How rarely chance alone takes a period beyond a limit around its own expectation, on either side: set by simulation, no source. Of
 * series of 100 jobs with chances of 0.05 to 0.5 in which nothing changes, 0.6 % have a month out at eight jobs a month, 0.7 % at thirty.
 */
const rareChance = 0.0022;

/**
 * Shares of one period after the other, each beside limits by its own number of jobs. Where it is known what was expected of the jobs
 * of a period, centre and limits are by that: season and mix of jobs put no period out, and the limits are counts that chance rarely
 * passes, on few jobs too. Periods without jobs have no share: NaN.
 *
 * @returns undefined where no period has a job
 *
 * Source: `nist-sematech-handbook`, 6.3.3.2; with an expectation the binomial distribution of the same mean and variance. Accuracy:
 * reproduces the handbook's example of thirty wafers; limits by an expectation are passed as rarely as meant, or more rarely
 * where chances differ much, held against chances added job by job.
 *
 * @example pChart([{ found: 1, jobs: 8 }, { found: 3, jobs: 8 }])?.centre // 0.25
 */
export function pChart(periods: readonly PeriodTally[]): PChart | undefined {
  const jobs = periods.reduce((sum, period) => sum + period.jobs, 0);
  if (jobs === 0) return undefined;
  const centre = periods.reduce((sum, period) => sum + period.found, 0) / jobs;
  const points = periods.map((period) => {
    const share = period.found / period.jobs;
    const limits = period.expectation ? limitsOf(period.jobs, period.expectation) : limitsAround(centre, period.jobs);
    return { share, ...limits, isOut: share < limits.low || share > limits.high };
  });
  return { centre, points };
}

type Limits = Pick<PChartPoint, 'centre' | 'low' | 'high'>;

function limitsAround(centre: number, jobs: number): Limits {
  const half = width * Math.sqrt((centre * (1 - centre)) / jobs);
  return { centre, low: Math.max(0, centre - half), high: Math.min(1, centre + half) };
}

/** Counts that chance rarely passes: at least so many with the trait, and at least so many without it. */
function limitsOf(jobs: number, { found, variance }: Expectation): Limits {
  const low = leastCount(jobs, found, variance);
  const high = jobs - leastCount(jobs, jobs - found, variance);
  return { centre: found / jobs, low: low / jobs, high: high / jobs };
}

/** Of chances that differ, mean and variance are those of fewer jobs with one higher chance. */
function leastCount(jobs: number, mean: number, variance: number): number {
  if (!(mean > 0)) return 0;
  const chance = Math.min(1, Math.max(mean / jobs, 1 - variance / mean));
  return Math.min(jobs, binomialQuantile(rareChance, mean / chance, chance));
}
