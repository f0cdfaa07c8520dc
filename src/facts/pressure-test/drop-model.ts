import { correlatedLine } from '../../numerics/correlated-line.ts';
import type { NormalPart } from '../../numerics/normal-distribution.ts';
import { type HoldCovarianceOptions, holdCovariance, wanderKernel } from './hold-covariance.ts';

/** What a drop is told from. */
export interface DropModelOptions extends Omit<HoldCovarianceOptions, 'driftK'> {
  /** Pressures corrected to one temperature [Pa]. */
  readonly correctedPa: ArrayLike<number>;
  /** How well the pipe's temperature tells that of the gas [K]: the clamp's accuracy. */
  readonly accuracyK: number;
}

// Common practice, no source; set on simulated tests (tests/truth).
/** How far the gas goes its own way from the pipe where the clamp sits: standard deviations [K], and how long it does [s]. */
const wandersK = [0.03, 0.1, 0.3, 0.9, 2.7] as const;
const wanderTimesS = [300, 1800, 10_800] as const;
/** Most likely wander, as a share of the clamp's accuracy, and how sure that is [natural logarithm]. */
const likelyWander = 0.18;
const wanderSpread = 1;
/** Parts that the clamp does not see drift by themselves: standard deviation [K] over so long a test or longer [s], in proportion over a shorter one. */
const driftK = 0.08;
const driftS = 14_400;
/** An explanation that is so much less likely [natural logarithm] is none. */
const hopeless = 15;

/**
 * How fast the corrected pressure falls: every way in which temperature, settling and gauge may have moved it, weighed by
 * how well it explains the readings.
 *
 * A line through the corrected pressures, beside all that `holdCovariance` knows and gas that goes its own way for minutes or
 * hours, by how much the readings tell.
 *
 * @returns the fall [Pa/s] as a mixture of normal distributions; empty where nothing can be told
 */
export function dropModel(options: DropModelOptions): NormalPart[] {
  const { means, correctedPa, paPerK, accuracyK } = options;
  const n = means.sinceS.length;
  const known = holdCovariance({ ...options, driftK: driftK * Math.min(1, means.lastedS / driftS) });
  const tried: { fallPaPerS: number; deviationPaPerS: number; logWeight: number }[] = [];
  const covariance = new Float64Array(n * n);
  for (const timeS of wanderTimesS) {
    const kernel = wanderKernel(means, timeS);
    for (const wanderK of wandersK) {
      const variance = (paPerK * wanderK) ** 2;
      // The lower triangle; nothing reads the upper one.
      for (let row = 0; row < n; row += 1)
        for (let place = row * n; place <= row * n + row; place += 1)
          covariance[place] = known[place] + variance * kernel[place];
      const line = correlatedLine(means.sinceS, correctedPa, covariance);
      if (line === undefined) continue;
      const off = Math.log(wanderK / (likelyWander * accuracyK)) / wanderSpread;
      tried.push({
        fallPaPerS: -line.slope,
        deviationPaPerS: Math.sqrt(line.variance),
        logWeight: line.logLikelihood - off ** 2 / 2,
      });
    }
  }
  const best = Math.max(...tried.map(({ logWeight }) => logWeight));
  return tried
    .filter(({ logWeight }) => logWeight > best - hopeless)
    .map(({ fallPaPerS, deviationPaPerS, logWeight }) => ({
      weight: Math.exp(logWeight - best),
      mean: fallPaPerS,
      deviation: deviationPaPerS,
    }));
}
