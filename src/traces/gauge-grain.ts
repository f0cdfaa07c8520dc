import { median } from '../numerics/median.ts';
import { Scratch } from '../numerics/scratch.ts';
import type { VacuumSeries } from './vacuum-series.ts';

/** No gauge is quieter than this ratio. */
const leastNoise = 0.002;
/** Noise is told from so many readings at most. */
const most = 120;
/** The step is told from so many pairs of neighbours. */
const tellingStep = 800;
/** Variance of a normal distribution cut to its middle nine tenths, as a ratio of the whole. */
const varianceOfNineTenths = 0.623;

const scratch = new Scratch();

/** Standard deviation of the noise of the levels over the whole log, from the median size of their second differences. */
export function levelNoise(levels: Float64Array): number {
  const stride = Math.max(1, Math.ceil(levels.length / most));
  const sizes = scratch.take(Math.ceil((levels.length - 2) / stride));
  for (let i = 1, k = 0; i < levels.length - 1; i += stride, k += 1)
    sizes[k] = Math.abs(levels[i - 1] - 2 * levels[i] + levels[i + 1]);
  return Math.max(leastNoise, median(sizes) / 0.6745 / Math.sqrt(6));
}

/** How uncertain single readings are near the lowest pressure, and the step in which the gauge shows them. */
export interface GaugeGrain {
  readonly noise: number;
  readonly step: number;
  /** How many readings in a row show the same, on average. */
  readonly repeats: number;
}

/**
 * Noise and step of the levels over a stretch near the lowest pressure, where the steps of a gauge are large against the
 * level: the root mean square of the second differences without the largest tenth, and no less than a step leaves uncertain.
 *
 * @param levels the logarithm of the pressure, without spikes
 * @param lowest where the pressure is lowest: there a step is largest against the level
 */
export function gaugeGrain(
  { vacuumPa }: VacuumSeries,
  levels: Float64Array,
  from: number,
  to: number,
  lowest: number,
): GaugeGrain {
  const squares = scratch.take(most);
  let count = 0;
  let looked = 0;
  let changes = 0;
  let stepPa = Number.POSITIVE_INFINITY;
  const stride = Math.max(1, Math.ceil((to - from) / most));
  for (let i = from + 1; i < to; i += stride) {
    const bend = (vacuumPa[i - 1] - 2 * vacuumPa[i] + vacuumPa[i + 1]) / Math.exp(levels[i]);
    if (Number.isFinite(bend)) {
      squares[count] = bend * bend;
      count += 1;
    }
    const change = Math.abs(vacuumPa[i] - vacuumPa[i - 1]);
    looked += 1;
    if (change <= 1e-6) continue;
    changes += 1;
    if (change < stepPa) stepPa = change;
  }
  const sorted = squares.subarray(0, count).sort();
  const kept = Math.ceil(count * 0.9);
  let sum = 0;
  for (let i = 0; i < kept; i += 1) sum += sorted[i];
  const scatter = kept === 0 ? 0 : Math.sqrt(sum / kept / 6 / varianceOfNineTenths);
  const step = stepPa === Number.POSITIVE_INFINITY ? 0 : stepPa / Math.exp(levels[lowest]);
  return { noise: Math.max(leastNoise, scatter, 0.3 * step), step, repeats: looked / Math.max(1, changes) };
}

/** The smallest change between neighbours, which is the step of a gauge where it shows in steps. */
export function smallestStep(vacuumPa: Float64Array): number {
  let stepPa = Number.POSITIVE_INFINITY;
  const stride = Math.max(1, Math.floor(vacuumPa.length / tellingStep));
  for (let i = 1; i < vacuumPa.length; i += stride) {
    const change = Math.abs(vacuumPa[i] - vacuumPa[i - 1]);
    if (change > 1e-6 && change < stepPa) stepPa = change;
  }
  return stepPa === Number.POSITIVE_INFINITY ? 0 : stepPa;
}
