import { groupMeans } from '../numerics/group-means.ts';
import { Scratch } from '../numerics/scratch.ts';
import { valleySplit } from '../numerics/valley-split.ts';
import { type BendProfile, type BendSearch, bendProfile, lagVariance } from './bend-profile.ts';

/** Where a curve turns up: the last sample before it does, and the samples between which that lies with at least 95 %. */
export interface Kink {
  readonly index: number;
  readonly lowIndex: number;
  readonly highIndex: number;
}

/**
 * What the second search looks at: how far beyond the places that are left open [s], since near a bend any curve is two
 * lines; and how far up the fall before the valley.
 */
const stretches = [
  { reachS: 120, lip: 0.2 },
  { reachS: 120, lip: 0.03 },
  { reachS: 60, lip: 0.2 },
  { reachS: 30, lip: 0.2 },
] as const;
/** A fall by so much from one sample to the next is none that a line goes on from. */
const cliff = 0.5;
/** A fit whose mean squared residual is below this ratio of the noise variance describes the curve. */
const wellFitted = 2;
/** A fit whose misfit is below this ratio of another's is clearly better. */
const clearlyBetter = 0.7;
/** The second search goes so far beyond what the first leaves open [s]. */
const marginS = 15;
/** Fewest samples on a side. */
const fewest = 4;
/** A kink that gains less is noise. Common practice, no source; about 1e-7 for independent noise, and lag makes it more. */
const leastGain = 30;
/** So many means at most are looked at in the first search. */
const places = 256;
/** Places whose misfit is so little above the best are left open, in units of the noise variance. */
const nearlyAsWell = 10;
/** A rise to so small a part of the whole is hardly one. */
const hardlyRisen = 0.1;
/** A clear onset: so many level samples, then as many that are so many deviations above. */
const levelSamples = 3;
const clearlyAbove = 14;
/** Where so many readings in a row show the same, the gauge's steps hide the curve. */
const coarseRepeats = 4;

const scratch = { times: new Scratch(), means: new Scratch() };

/**
 * Finds where a curve that was falling or level turns upwards and stays up.
 *
 * First search, on means of a few samples: the best curve that never rises up to a place and never falls after it; it
 * leaves open where in a level stretch the rise began. Second search, over the places left open: a line that bends up at
 * a sample. Accuracy, measured on simulated fleets: tests/traces/known-truth.test.ts.
 *
 * @param timesS ascending [s]
 * @param values e.g. the logarithm of a pressure
 * @param from first index looked at; @param to index after the last
 * @param noiseDeviation standard deviation of the noise [unit of values]
 * @param repeats how many readings in a row show the same, on average: only one of them is news
 * @returns undefined where nothing turns up clearly
 */
export function upwardKink(
  timesS: Float64Array,
  values: Float64Array,
  from: number,
  to: number,
  noiseDeviation: number,
  repeats = 1,
): Kink | undefined {
  if (to - from < 2 * fewest) return undefined;
  const group = Math.max(1, Math.ceil((to - from) / places));
  const times = groupMeans(timesS, from, to, group, scratch.times);
  const means = groupMeans(values, from, to, group, scratch.means);
  const variance = (noiseDeviation ** 2 * (group === 1 ? 1 : lagVariance)) / group;
  const { index, misfits, fallingMisfit } = valleySplit(means);
  if ((fallingMisfit - misfits[index]) / variance < leastGain) return undefined;
  const { low, high } = openPlaces(means, misfits, index, variance);
  const first = sampleBefore(timesS, from, from + Math.min(low + 1, high) * group, times[low] - marginS);
  const valley = from + Math.min(low + 1, high) * group;
  const last = sampleAfter(timesS, to - 1, from + high * group, times[high] + marginS);
  const profile = fittingProfile(timesS, values, { from, to, low: first, high: last }, valley, noiseDeviation);
  const near = Math.min(to - 1, from + index * group + (group >> 1));
  if (profile === undefined) return { index: near, lowIndex: first, highIndex: last };
  const kink = withinProfile(profile, dropAt95 * Math.max(boundaryVariance, repeats));
  const onset = clearOnset(values, kink.index, to, noiseDeviation);
  if (onset !== undefined && Math.abs(onset - kink.index) > 1)
    return { index: onset, lowIndex: onset - 1, highIndex: Math.min(to - 1, onset + 1) };
  if (repeats < coarseRepeats) return kink;
  // Steps that coarse hide where the rise began: every place that is left open may be it.
  return { ...kink, lowIndex: Math.min(kink.lowIndex, first), highIndex: Math.max(kink.highIndex, last) };
}

/**
 * The last of some level samples before one that is clearly higher and stays so: of a coarse log the curve after the bend
 * is too steep between two samples for any fit.
 *
 * @param near where the bend was found
 */
function clearOnset(values: Float64Array, near: number, to: number, noiseDeviation: number): number | undefined {
  if (near < levelSamples) return undefined;
  const level = meanOver(values, near - levelSamples + 1, near + 1);
  let next = near + 1;
  while (next < to && Math.abs(values[next] - level) <= 4 * noiseDeviation) next += 1;
  const above = level + clearlyAbove * noiseDeviation;
  for (let i = next; i < next + levelSamples; i += 1) if (!(i < to && values[i] > above)) return undefined;
  return next - 1;
}

/**
 * The profile over the longest stretch over which lines describe the curve. A shorter one, or one with less of the fall
 * before the valley, is taken only where it is described clearly better.
 */
function fittingProfile(
  timesS: Float64Array,
  values: Float64Array,
  places: Omit<BendSearch, 'reachS'>,
  valley: number,
  noiseDeviation: number,
): BendProfile | undefined {
  let best: BendProfile | undefined;
  let bestMisfit = Number.POSITIVE_INFINITY;
  for (const { reachS, lip } of stretches) {
    const top = values[valley] + Math.max(lip, 5 * noiseDeviation);
    let from = valley;
    while (from > places.from && values[from - 1] < top && timesS[from - 1] > timesS[valley] - reachS) from -= 1;
    while (from > Math.max(places.from, places.low - 3) && values[from - 1] - values[from] < cliff) from -= 1;
    const profile = bendProfile(
      timesS,
      values,
      { ...places, from, low: Math.max(from, places.low), reachS },
      noiseDeviation,
    );
    if (profile === undefined) continue;
    const misfit = profile.misfits[profile.best] / profile.count;
    if (misfit < bestMisfit * clearlyBetter) {
      best = profile;
      bestMisfit = misfit;
    }
    if (bestMisfit < wellFitted) break;
  }
  return best;
}

/**
 * The places that the first search leaves open: those that fit nearly as well as the best, and on to the last mean that
 * has hardly risen, since a level stretch may as well be the start of a rise.
 */
function openPlaces(
  means: Float64Array,
  misfits: Float64Array,
  best: number,
  variance: number,
): { low: number; high: number } {
  const enough = misfits[best] + nearlyAsWell * variance;
  let low = 0;
  while (misfits[low] > enough) low += 1;
  let high = misfits.length - 1;
  while (misfits[high] > enough) high -= 1;
  const floor = meanOver(means, low, high + 1);
  const end = meanOver(means, Math.max(high, means.length - fewest), means.length);
  const hardly = floor + Math.max(4 * Math.sqrt(variance), hardlyRisen * (end - floor));
  let last = means.length - 1;
  while (last > high && means[last] > hardly) last -= 1;
  return { low, high: last };
}

function meanOver(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i += 1) sum += values[i];
  return sum / (to - from);
}

/** The first sample from `least` on that is not before a time, going back from `from`. */
function sampleBefore(timesS: Float64Array, least: number, from: number, timeS: number): number {
  let index = from;
  while (index > least && timesS[index - 1] >= timeS) index -= 1;
  return index;
}

function sampleAfter(timesS: Float64Array, most: number, from: number, timeS: number): number {
  let index = from;
  while (index < most && timesS[index + 1] <= timeS) index += 1;
  return index;
}

/**
 * A line and a root describe no curve quite: the misfit near a boundary varies by so much more than by noise alone. Set on
 * simulated fleets (tests/truth), so that the interval holds the true moment in 99 of 100.
 */
const boundaryVariance = 3.2;
/** Drop of the log-likelihood, twice, within which the true place lies with 95 % (χ², 1 degree of freedom). */
const dropAt95 = 3.84;

function withinProfile({ firstIndex, step, misfits, best }: BendProfile, drop: number): Kink {
  let low = best;
  let high = best;
  while (low > 0 && misfits[low - 1] < misfits[best] + drop) low -= 1;
  while (high < misfits.length - 1 && misfits[high + 1] < misfits[best] + drop) high += 1;
  // The bend lies between samples: one more on either side holds it.
  return {
    index: firstIndex + best * step,
    lowIndex: firstIndex + Math.max(0, low - 1) * step,
    highIndex: firstIndex + Math.min(misfits.length - 1, high + 1) * step,
  };
}
