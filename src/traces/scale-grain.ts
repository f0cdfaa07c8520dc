import { quantile } from '../numerics/quantile.ts';
import { Scratch } from '../numerics/scratch.ts';
import type { ScaleSeries } from './scale-series.ts';

/** How finely a scale shows, and how still its readings stand. */
export interface ScaleGrain {
  /** Step in which it shows [kg]. */
  readonly stepKg: number;
  /** Standard deviation of single readings on an unchanged load, what the step does left aside [kg]. */
  readonly noiseKg: number;
  /** Readings on an unchanged load stay within this of each other for a while [kg]. */
  readonly stillKg: number;
}

// Common practice, no source; set on simulated weigh-ins.
/** Noise is told from windows of so many readings, by one that is quieter than nearly all: the load moved in the others. */
const windowReadings = 5;
const quietShare = 0.1;
/** Quiet by chance as well: its deviation is too small by about this. */
const quietBias = 2;
/** Steps that a scale may have [kg]: finer ones show as noise. */
const leastStepKg = 0.0002;

const scratch = new Scratch();

/** @param stepKg step on record [kg]; else the smallest change that the readings show tells it */
export function scaleGrain({ scaleKg }: ScaleSeries, stepKg: number | undefined): ScaleGrain {
  let smallestKg = Number.POSITIVE_INFINITY;
  for (let i = 1; i < scaleKg.length; i += 1) {
    const changeKg = Math.abs(scaleKg[i] - scaleKg[i - 1]);
    if (changeKg >= leastStepKg && changeKg < smallestKg) smallestKg = changeKg;
  }
  const ownKg = stepKg !== undefined && stepKg > 0 ? stepKg : Number.isFinite(smallestKg) ? smallestKg : leastStepKg;
  const variances = scratch.take(Math.max(0, scaleKg.length + 1 - windowReadings));
  for (let from = 0; from < variances.length; from += 1) variances[from] = varianceFrom(scaleKg, from);
  const quiet = variances.length === 0 ? 0 : quantile(variances, quietShare) * quietBias ** 2;
  const noiseKg = Math.sqrt(Math.max(0, quiet - ownKg ** 2 / 12));
  return { stepKg: ownKg, noiseKg, stillKg: Math.max(2.2 * ownKg, 6 * noiseKg) };
}

/** Variance of a window about a line: of a steady flow only the noise is left. */
function varianceFrom(scaleKg: Float64Array, from: number): number {
  const middle = (windowReadings - 1) / 2;
  let mean = 0;
  for (let at = 0; at < windowReadings; at += 1) mean += scaleKg[from + at];
  mean /= windowReadings;
  let slope = 0;
  let squares = 0;
  for (let at = 0; at < windowReadings; at += 1) {
    slope += (at - middle) * (scaleKg[from + at] - mean);
    squares += (at - middle) ** 2;
  }
  slope /= squares;
  let sum = 0;
  for (let at = 0; at < windowReadings; at += 1) sum += (scaleKg[from + at] - mean - slope * (at - middle)) ** 2;
  return sum / (windowReadings - 2);
}
