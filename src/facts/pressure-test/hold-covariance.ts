import type { HoldMeans, ReadingGrain } from './hold-means.ts';

/** The times of the means of a hold, and what single readings are worth. */
export type HoldDesign = Pick<HoldMeans, 'sinceS' | 'counts' | 'lastedS' | 'widthS' | 'gauge' | 'clamp'>;

/** What may have moved the corrected pressures of a hold beside a loss. */
export interface HoldCovarianceOptions {
  readonly means: HoldDesign;
  /** How much warmer the pipe was than on average [K]. */
  readonly warmerK: ArrayLike<number>;
  /** What a kelvin more does to the pressure [Pa/K]. */
  readonly paPerK: number;
  /** Pressure of the test [Pa], absolute. */
  readonly testPa: number;
  /** Step of the gauge [Pa]. */
  readonly stepPa: number;
  /** How long after the filling the judged part begins [s]. */
  readonly settledForS: number;
  /** By how much the gas may have warmed unseen over the hold, evenly [K]: standard deviation. */
  readonly driftK: number;
}

// Common practice, no source; set on simulated tests (tests/truth).
/** A part of the gas may stand elsewhere, and the gauge itself warms: share of the pipe's changes that the gas may do more or less. */
export const followingSpread = 0.22;
/** Noise of a clamp that the gas knows nothing of would make the gas seem to follow less: it counts so many times its variance … */
const clampWeight = 9;
/** … and no mean of it is better than this [K]. */
export const leastClampK = 0.05;
/** How many times more the variance of a step counts where no other level was shown. */
const fewLevels = 2;
/** Noise of this share of a step, as it is shown, makes up for the step. */
const ditheringShare = 0.45;
/** After filling the gas settles by this ratio of the pressure, with these time constants [s]. */
const settlingRatio = 0.02;
const settlingTimesS = [60, 180] as const;

/**
 * Covariance of the corrected pressures of a hold, by all but what the gas does by itself: gas that follows the pipe by more
 * or less, that warms unseen, that settles after the filling; steps and noise of gauge and clamp.
 *
 * @returns row by row, n × n, its lower triangle [Pa²]
 */
export function holdCovariance(options: HoldCovarianceOptions): Float64Array {
  const { means, warmerK, paPerK, testPa, stepPa, settledForS, driftK } = options;
  const { sinceS, counts, lastedS, gauge, clamp } = means;
  const n = sinceS.length;
  const moved = levelChanges(gauge, stepPa);
  const gaugeSteps = wanderKernel(means, lastedS / (2 * moved + 2));
  const clampSteps = wanderKernel(means, lastedS / (clamp.changes + 1));
  // Of few levels the error is no noise but the same ramp each time.
  const gaugePa2 = (stepPa ** 2 / 12) * (1 + fewLevels / (1 + moved));
  const clampPa2 = (clampWeight * (paPerK * clamp.step) ** 2) / 12;
  const following = followingSpread * paPerK;
  const driftPaPerS = (paPerK * driftK) / lastedS;
  const settling = settlingTimesS.map((timeS) => {
    const left = settlingRatio * testPa * Math.exp(-settledForS / timeS);
    return Float64Array.from(sinceS, (since) => left * Math.exp(-since / timeS));
  });
  const covariance = new Float64Array(n * n);
  for (let row = 0; row < n; row += 1) {
    for (let column = 0; column <= row; column += 1) {
      const place = row * n + column;
      let sum = gaugePa2 * gaugeSteps[place] + clampPa2 * clampSteps[place];
      sum += following ** 2 * warmerK[row] * warmerK[column];
      sum += driftPaPerS ** 2 * sinceS[row] * sinceS[column];
      for (const left of settling) sum += left[row] * left[column];
      covariance[place] = sum;
    }
    const clampK2 = leastClampK ** 2 + (clampWeight * clamp.noise ** 2) / counts[row];
    covariance[row * n + row] += gauge.noise ** 2 / counts[row] + clampK2 * paPerK ** 2;
  }
  return covariance;
}

/**
 * How often an instrument in steps takes another level: what it shows between is one error, however often it is read and
 * however often it flickers between two. Where its noise is as large as its steps it does so all the time.
 */
function levelChanges({ noise, changes, levels }: ReadingGrain, step: number): number {
  return noise > ditheringShare * step ? changes : levels - 1;
}

/**
 * How means over a time resemble each other where single moments do by exp(−|t|/τ); exact for means side by side.
 *
 * @returns row by row, n × n, its lower triangle
 */
export function wanderKernel({ sinceS, widthS, counts }: HoldDesign, timeS: number): Float64Array {
  const n = sinceS.length;
  const readings = counts.reduce((sum, count) => sum + count, 0);
  // A mean of one reading is over no time at all.
  const overS = widthS * (1 - n / readings);
  const widths = Math.max(1e-6, overS / timeS);
  const share = -Math.expm1(-widths) / widths;
  const own = (2 / widths) * (1 - share);
  const kernel = new Float64Array(n * n);
  for (let row = 0; row < n; row += 1) {
    for (let column = 0; column < row; column += 1) {
      const apartS = Math.max(0, sinceS[row] - sinceS[column] - overS);
      kernel[row * n + column] = share ** 2 * Math.exp(-apartS / timeS);
    }
    kernel[row * n + row] = Math.min(1, own);
  }
  return kernel;
}
