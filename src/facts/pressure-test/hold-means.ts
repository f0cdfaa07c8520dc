import { medianOfThree } from '../../numerics/median-of-three.ts';
import { withoutWild } from '../../traces/without-spikes.ts';
import type { ClampedSeries } from './clamped-readings.ts';

/** What single readings of an instrument are worth. */
export interface ReadingGrain {
  /** Standard deviation of a single reading, in its own unit. */
  readonly noise: number;
  /** How often what it showed changed, and from its lowest to its highest how many of its steps it went through. */
  readonly changes: number;
  readonly levels: number;
  /** The smallest such change; 0 where there was none. */
  readonly step: number;
}

/** The readings of a hold in means over equal times. Parallel arrays. */
export interface HoldMeans {
  /** Since the first reading that is judged [s]. */
  readonly sinceS: Float64Array;
  readonly testPa: Float64Array;
  /** Pipe temperature [K]. */
  readonly lineK: Float64Array;
  /** How many readings each mean is of. */
  readonly counts: Float64Array;
  /** From the first judged reading to the last [s]. */
  readonly lastedS: number;
  /** Length of time that a mean is over [s]. */
  readonly widthS: number;
  readonly gauge: ReadingGrain;
  readonly clamp: ReadingGrain;
}

/** A reading of the clamp so far off its neighbours [K], or of the gauge by this ratio, is a wild one. Common practice, no source. */
export const mostOffK = 3;
const mostOffRatio = 0.03;
/** So many means at most: what they cost grows with their cube. Common practice, no source. */
export const mostMeans = 28;

/** Takes the readings of a hold together, two or more; spikes of one reading are left out. */
export function holdMeans({ elapsedS: times, testPa, lineK }: ClampedSeries): HoldMeans {
  const pressures = withoutWild(testPa, (pa) => mostOffRatio * pa);
  const temperatures = withoutWild(lineK, () => mostOffK);
  const count = times.length;
  const lastedS = times[count - 1] - times[0];
  const bins = Math.min(mostMeans, count);
  const widthS = lastedS / bins;
  const binOf = new Int32Array(count);
  const all = new Float64Array(bins);
  for (let at = 0; at < count; at += 1) {
    const bin = Math.min(bins - 1, Math.floor((times[at] - times[0]) / widthS));
    binOf[at] = bin;
    all[bin] += 1;
  }
  const used = Array.from(all.keys()).filter((bin) => all[bin] > 0);
  const meansOf = (values: Float64Array): Float64Array => {
    const sums = new Float64Array(bins);
    for (let at = 0; at < count; at += 1) sums[binOf[at]] += values[at] / all[binOf[at]];
    return Float64Array.from(used, (bin) => sums[bin]);
  };
  return {
    sinceS: meansOf(times.map((at) => at - times[0])),
    testPa: meansOf(middles(pressures)),
    lineK: meansOf(middles(temperatures)),
    counts: Float64Array.from(used, (bin) => all[bin]),
    lastedS,
    widthS,
    gauge: grainOf(pressures, 1e-3),
    clamp: grainOf(temperatures, 1e-6),
  };
}

/** Each reading the median of it and its neighbours. */
function middles(values: Float64Array): Float64Array {
  const smooth = values.slice();
  for (let at = 1; at < values.length - 1; at += 1)
    smooth[at] = medianOfThree(values[at - 1], values[at], values[at + 1]);
  return smooth;
}

/** @param least a change of less is none */
function grainOf(values: Float64Array, least: number): ReadingGrain {
  let bends = 0;
  let changes = 0;
  let step = Number.POSITIVE_INFINITY;
  let lowest = values[0];
  let most = values[0];
  for (let at = 1; at < values.length; at += 1) {
    if (at < values.length - 1) bends += (values[at - 1] - 2 * values[at] + values[at + 1]) ** 2;
    lowest = Math.min(lowest, values[at]);
    most = Math.max(most, values[at]);
    const change = Math.abs(values[at] - values[at - 1]);
    if (change <= least) continue;
    changes += 1;
    if (change < step) step = change;
  }
  const noise = Math.sqrt(bends / Math.max(1, values.length - 2) / 6);
  if (changes === 0) return { noise, changes, levels: 1, step: 0 };
  return { noise, changes, levels: Math.round((most - lowest) / step) + 1, step };
}
