import { binomialQuantile, binomialShareUpTo } from '../../numerics/binomial-distribution.ts';

/** Limits of a share, all ratios 0…1. */
export interface FunnelLimits {
  readonly low95: number;
  readonly high95: number;
  readonly low998: number;
  readonly high998: number;
}

/**
 * Between which limits a share lies by chance, 95 and 99.8 of 100 times: exact binomial limits, interpolated so that they run
 * smoothly with the number of jobs.
 *
 * @param target the share over all [ratio], 0…1
 * @param jobs how many were judged [count], whole, above 0
 *
 * Source: `spiegelhalter-2005`, appendix. Accuracy: reproduces the limits of the surgical example to the four places given.
 *
 * @example funnelLimits(0.0739161, 100).high998 // 0.1605127
 */
export function funnelLimits(target: number, jobs: number): FunnelLimits {
  const [low95, high95, low998, high998] = [0.025, 0.975, 0.001, 0.999].map((share) => limitAt(share, target, jobs));
  return { low95, high95, low998, high998 };
}

function limitAt(share: number, target: number, jobs: number): number {
  const least = binomialQuantile(share, jobs, target);
  const upTo = binomialShareUpTo(least, jobs, target);
  const below = binomialShareUpTo(least - 1, jobs, target);
  const beyond = upTo === below ? 0 : (upTo - share) / (upTo - below);
  return Math.max(0, (least - beyond) / jobs);
}
