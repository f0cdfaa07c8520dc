import type { MakeUp } from '../../../src/facts/rise/make-up.ts';
import { type RiseFit, riseFit } from '../../../src/facts/rise/rise-fit.ts';
import { type LevelBefore, type RiseSamples, riseSamples } from '../../../src/facts/rise/rise-samples.ts';
import { riseShape } from '../../../src/facts/rise/rise-shape.ts';
import { Random } from '../../../src/numerics/random.ts';
import type { VacuumSeries } from '../../../src/traces/vacuum-series.ts';

export interface RiseOptions {
  readonly testS?: number;
  /** Time between readings [s]. */
  readonly intervalS?: number;
  /** Noise of a reading, relative. */
  readonly noiseRatio?: number;
  /** The step of the gauge [Pa]; 0 for none. */
  readonly stepPa?: number;
  readonly seed?: number;
}

/** What saturates: its size [Pa], its time constant [s]. */
export const saturating = (pa: number, timeS: number) => (sinceS: number) => -pa * Math.expm1(-sinceS / timeS);
/** Gas given off as 1/t: pa per e-fold of the time that it was pumped for [s] before. */
export const outgassing = (pa: number, pumpedS: number) => (sinceS: number) => pa * Math.log1p(sinceS / pumpedS);

/** The readings of an isolation whose pressure is `at(seconds since valve-off)` [Pa], from its first moment on. */
export function isolatedRise(at: (sinceS: number) => number, options: RiseOptions = {}): VacuumSeries {
  const { testS = 900, intervalS = 2, noiseRatio = 0, stepPa = 0, seed = 1 } = options;
  const random = new Random(seed);
  const elapsedS = Float64Array.from({ length: Math.floor(testS / intervalS + 1e-9) + 1 }, (_, i) => i * intervalS);
  const vacuumPa = elapsedS.map((sinceS) => {
    const pa = at(sinceS) * (noiseRatio > 0 ? random.normal(1, noiseRatio) : 1);
    return stepPa > 0 ? Math.round(pa / stepPa) * stepPa : pa;
  });
  return { gauge: null, elapsedS, vacuumPa };
}

/** The samples of an isolation that begins with its log. */
export function samplesOf({ elapsedS, ...series }: VacuumSeries, before?: LevelBefore, stepPa = 0): RiseSamples {
  const samples = riseSamples({ elapsedS, ...series }, 0, elapsedS.length - 1, { startS: elapsedS[0], before, stepPa });
  if (samples === undefined) throw new Error('too few readings');
  return samples;
}

export interface Fitted {
  readonly samples: RiseSamples;
  readonly fit: RiseFit;
  readonly leakPaPerS: number;
  readonly makeUp: MakeUp;
}

/** Pumped for 20 min before; water at 20 °C. */
export const usualOutlook = { pumpedS: 1200, mostVapourPa: 2339 };

/** Samples and fit of an isolation that begins with its log, by a gauge whose step may be known [Pa]. */
export function fitted(series: VacuumSeries, outlook = usualOutlook, stepPa = 0): Fitted {
  const samples = samplesOf(series, undefined, stepPa);
  const fit = riseFit(samples, outlook);
  if (fit === undefined) throw new Error('no fit');
  return { samples, fit, leakPaPerS: fit.makeUp.leakPaPerS, makeUp: fit.makeUp };
}

/** The shape of a fitted rise, by a gauge that is right to 5 %. */
export function shapeOf({ samples, fit }: Fitted, isolationPa: number, levelLimitPa?: number): string {
  const noisePa = samples.noiseRatio * fit.meanPa * Math.sqrt((8 * fit.scale) / samples.independent);
  return riseShape(fit, { isolationPa, levelLimitPa, accuracyRatio: 0.05, noisePa });
}

/** Of so many seeds from 1, the share for which something holds. */
export function shareOf(seeds: number, holds: (seed: number) => boolean): number {
  let count = 0;
  for (let seed = 1; seed <= seeds; seed += 1) if (holds(seed)) count += 1;
  return count / seeds;
}
