import type { Tally } from './shrunken-shares.ts';

/** Shares of periods beside the limits that chance keeps to. */
export interface PChart {
  /** Share over all periods [ratio]. */
  readonly centre: number;
  readonly points: readonly PChartPoint[];
}

export interface PChartPoint {
  readonly share: number;
  readonly low: number;
  readonly high: number;
  readonly isOut: boolean;
}

/** Limits stand so many standard errors from the centre. */
const width = 3;

/**
 * Shares of one period after the other, each beside limits by its own number of jobs. Periods without jobs have no share: NaN.
 *
 * @returns undefined where no period has a job
 *
 * Source: `nist-sematech-handbook`, 6.3.3.2. Accuracy: reproduces its example of thirty wafers.
 *
 * @example pChart([{ found: 1, jobs: 8 }, { found: 3, jobs: 8 }])?.centre // 0.25
 */
export function pChart(periods: readonly Tally[]): PChart | undefined {
  const jobs = periods.reduce((sum, period) => sum + period.jobs, 0);
  if (jobs === 0) return undefined;
  const centre = periods.reduce((sum, period) => sum + period.found, 0) / jobs;
  const points = periods.map((period) => {
    const share = period.found / period.jobs;
    const half = width * Math.sqrt((centre * (1 - centre)) / period.jobs);
    const [low, high] = [Math.max(0, centre - half), Math.min(1, centre + half)];
    return { share, low, high, isOut: share < low || share > high };
  });
  return { centre, points };
}
