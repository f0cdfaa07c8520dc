import { type FunnelLimits, funnelLimits } from './funnel-limits.ts';

/** Limits of found over expected, all ratios 0 or more, where so many are expected. */
export interface FunnelPoint extends FunnelLimits {
  /** Place on the grid, whole, 0 or more. */
  readonly step: number;
  /** [count] */
  readonly expected: number;
}

/** The grid: where it begins [count], and how much farther each step is. */
export const funnelGrid = { least: 0.25, factor: 1.1 } as const;

/**
 * Between which limits found over expected lies by chance, 95 and 99.8 of 100 times, along a grid of expected counts.
 *
 * The jobs' chances differ; here all have the mean. So the limits are too wide for whose jobs are likelier than that to show it, and
 * too narrow for whose jobs are less likely: by a seventh where they show it one time in twenty and all jobs three times in ten.
 *
 * @param meanChance over all jobs [ratio], above 0, below 1
 * @param largestExpected the grid ends at the first step that is no less [count]
 * @returns steps of the grid from where one job is as many as are expected
 *
 * Source: `spiegelhalter-2005`. Accuracy: between two steps, straight over the logarithm of what is expected, within 0.1 of the
 * limits of so many whole jobs, from 3 expected on within 0.05, from 10 on within 0.012 (measured).
 *
 * @example funnelCurve(0.05, 1).length // 16
 */
export function funnelCurve(meanChance: number, largestExpected: number): FunnelPoint[] {
  const points: FunnelPoint[] = [];
  for (let step = 0; ; step += 1) {
    const expected = funnelGrid.least * funnelGrid.factor ** step;
    const jobs = expected / meanChance;
    if (jobs >= 1) {
      // Between whole jobs the interpolation may pass all of them.
      const ratio = (share: number): number => Math.min(1, share) / meanChance;
      const { low95, high95, low998, high998 } = funnelLimits(meanChance, jobs);
      const limits = { low95: ratio(low95), high95: ratio(high95), low998: ratio(low998), high998: ratio(high998) };
      points.push({ step, expected, ...limits });
    }
    if (expected >= largestExpected) return points;
  }
}
