import { median } from '../../numerics/median.ts';
import { medianOfThree } from '../../numerics/median-of-three.ts';
import { Scratch } from '../../numerics/scratch.ts';
import type { VacuumSeries } from '../../traces/vacuum-series.ts';

/** The readings of a rise in means of neighbours, with what they are worth. Parallel arrays. */
export interface RiseSamples {
  /** Since valve-off [s]. */
  readonly sinceS: Float64Array;
  readonly vacuumPa: Float64Array;
  /** One over the variance [1/Pa²]. */
  readonly weights: Float64Array;
  /** Noise of single readings, relative. */
  readonly noiseRatio: number;
  /** How many readings are worth as much as independent ones. */
  readonly independent: number;
}

/** The level before the valve was shut, as a point of the rise at its very start. */
export interface LevelBefore {
  readonly pa: number;
  readonly deviationPa: number;
}

/** How the readings of a gauge scatter. */
export interface ReadingNoise {
  /** Noise of single readings, relative. */
  readonly noiseRatio: number;
  /** How readings resemble the one before [ratio]. */
  readonly correlation: number;
  /** How many differ from the one before [ratio]. */
  readonly changeShare: number;
}

/** What goes with the readings of a rise. */
export interface RiseSamplesOptions {
  /** Valve-off, since the log began [s]. */
  readonly startS: number;
  readonly before?: LevelBefore | undefined;
  /** The finest step of the gauge [Pa]; 0 where none is known. */
  readonly stepPa?: number;
  /** How they scatter, where these readings, still to come, do not show it. */
  readonly noise?: ReadingNoise | undefined;
}

// Common practice, no source; set on simulated fleets (tests/truth).
/** Right after valve-off the gauge's own lag shows [s]. */
const lagS = 4;
/** So many means at most. */
const mostMeans = 120;
/** With the level before, so many samples at most. */
export const mostSamples = mostMeans + 1;
/** A mean reaches over this share of the time since valve-off. */
const spanShare = 0.11;
/** No gauge is quieter than this ratio. */
const leastNoise = 3e-4;
/** Noise for telling spikes is taken from so many readings. */
const tellingNoise = 60;
/** A reading so many deviations off the median of it and its neighbours is a spike. */
const spikeDeviations = 7;

const scratch = { apart: new Scratch(), clean: new Scratch() };

/**
 * Takes the readings of an isolation together in means whose span grows with the time since valve-off, and weighs them by
 * noise, by how neighbours resemble each other, and by the steps of the gauge.
 *
 * @param fromIndex first reading after valve-off; @param toIndex last one, both in range
 * @returns undefined where fewer than six readings are left
 */
export function riseSamples(
  { elapsedS, vacuumPa }: VacuumSeries,
  fromIndex: number,
  toIndex: number,
  { startS, before, stepPa = 0, noise: known }: RiseSamplesOptions,
): RiseSamples | undefined {
  let from = fromIndex;
  while (from < toIndex && elapsedS[from] < startS + lagS) from += 1;
  const count = toIndex + 1 - from;
  if (count < 6) return undefined;
  const {
    noiseRatio,
    correlation,
    shownStepPa,
    changes: allChanges,
    clean,
  } = known === undefined ? noiseOf(vacuumPa, from, toIndex) : noiseToCome(vacuumPa.subarray(from, toIndex + 1), known);
  const most = Math.min(count, mostMeans) + 1;
  // Where nothing changes, only the record or the rest of the log knows the step; and what a gauge in steps shows between
  // two changes is one piece of news, however many means it takes up.
  const meansExpected = Math.min(most, Math.log1p((elapsedS[toIndex] - startS) / lagS) / spanShare);
  const grainPa2 = (Math.max(stepPa, shownStepPa) ** 2 / 12) * Math.max(1, meansExpected / (allChanges + 2));
  const sinceS = new Float64Array(most);
  const means = new Float64Array(most);
  const weights = new Float64Array(most);
  let used = 0;
  let independent = 0;
  if (before !== undefined) {
    means[0] = before.pa;
    weights[0] = 1 / before.deviationPa ** 2;
    used = 1;
  }
  for (let i = from; i <= toIndex && used < most; ) {
    const endS = elapsedS[i] + spanShare * (elapsedS[i] - startS);
    let end = i + 1;
    while (end <= toIndex && (elapsedS[end] <= endS || used === most - 1)) end += 1;
    let times = elapsedS[i];
    let sum = clean[i - from];
    let changes = 1;
    for (let at = i + 1; at < end; at += 1) {
      times += elapsedS[at];
      sum += clean[at - from];
      if (known !== undefined) changes += known.changeShare;
      else if (clean[at - from] !== clean[at - from - 1]) changes += 1;
    }
    const n = end - i;
    i = end;
    const pa = sum / n;
    sinceS[used] = times / n - startS;
    means[used] = pa;
    // Correlated neighbours, exactly for a first-order process.
    const widened =
      (1 + correlation) / (1 - correlation) - (2 * correlation * (1 - correlation ** n)) / (n * (1 - correlation) ** 2);
    const noise = ((noiseRatio * pa) ** 2 * widened) / n;
    weights[used] = 1 / Math.max(noise, grainPa2 / changes);
    independent += n / widened;
    used += 1;
  }
  return {
    sinceS: sinceS.subarray(0, used),
    vacuumPa: means.subarray(0, used),
    weights: weights.subarray(0, used),
    noiseRatio,
    independent,
  };
}

/** What a stretch of readings of a pressure that hardly changes tells of how all readings of that gauge scatter. */
export function readingNoise(vacuumPa: Float64Array): ReadingNoise {
  const { noiseRatio, correlation, changes } = noiseOf(vacuumPa, 0, vacuumPa.length - 1);
  return { noiseRatio, correlation, changeShare: changes / (vacuumPa.length - 1) };
}

interface Noise {
  readonly noiseRatio: number;
  readonly correlation: number;
  readonly shownStepPa: number;
  readonly changes: number;
  readonly clean: Float64Array;
}

function noiseToCome(clean: Float64Array, { noiseRatio, correlation, changeShare }: ReadingNoise): Noise {
  return { noiseRatio, correlation, shownStepPa: 0, changes: changeShare * (clean.length - 1), clean };
}

/** Noise, how neighbours resemble each other, and the steps, from second differences, which a rise hardly touches. */
function noiseOf(vacuumPa: Float64Array, from: number, toIndex: number): Noise {
  const count = toIndex + 1 - from;
  const clean = withoutSpikes(vacuumPa.subarray(from, toIndex + 1));
  let near = 0;
  let far = 0;
  let nears = 0;
  let fars = 0;
  let stepPa = Number.POSITIVE_INFINITY;
  let changes = 0;
  for (let i = 1; i < count - 1; i += 1) {
    const before = clean[i - 1];
    const at = clean[i];
    const twice = 2 * at;
    const scale = 4 / (twice > 1e-9 ? twice : 1e-9) ** 2;
    near += (before - twice + clean[i + 1]) ** 2 * scale;
    nears += 1;
    if (i >= 2 && i < count - 2) {
      far += (clean[i - 2] - twice + clean[i + 2]) ** 2 * scale;
      fars += 1;
    }
    const change = Math.abs(at - before);
    if (change <= 1e-6) continue;
    changes += 1;
    if (change < stepPa) stepPa = change;
  }
  // Of a first-order process with correlation ρ they have the variances 2 (1 − ρ)(3 − ρ) and 2 (1 − ρ²)(3 − ρ²);
  // ρ = 0.76 (ratio − 1) is within 0.02 up to 0.6.
  const correlation = near === 0 ? 0 : Math.min(0.8, Math.max(0, 0.76 * ((far * nears) / (near * fars) - 1)));
  const noiseRatio = Math.max(leastNoise, Math.sqrt(near / nears / (2 * (1 - correlation) * (3 - correlation))));
  return { noiseRatio, correlation, shownStepPa: Number.isFinite(stepPa) ? stepPa : 0, changes, clean };
}

/** The readings, single ones far off their neighbours replaced by the median of the three; in memory of the next call too. */
function withoutSpikes(vacuumPa: Float64Array): Float64Array {
  const count = vacuumPa.length;
  const stride = Math.max(1, Math.floor(count / tellingNoise));
  const apart = scratch.apart.take(Math.ceil((count - 2) / stride));
  for (let i = 1, k = 0; i < count - 1; i += stride, k += 1)
    apart[k] = Math.abs(vacuumPa[i - 1] - 2 * vacuumPa[i] + vacuumPa[i + 1]) / Math.max(vacuumPa[i], 1e-9);
  const far = spikeDeviations * Math.max(leastNoise, median(apart));
  const clean = scratch.clean.take(count);
  let before = vacuumPa[0];
  let at = before;
  for (let i = 0; i < count; i += 1) {
    const after = vacuumPa[i < count - 1 ? i + 1 : i];
    clean[i] = at;
    // Near both neighbours it is near the median too; this leaves out nearly all.
    if (!(Math.abs(at - before) <= far * before && Math.abs(at - after) <= far * after)) {
      const middle = medianOfThree(before, at, after);
      if (Math.abs(at - middle) > far * middle) clean[i] = middle;
    }
    before = at;
    at = after;
  }
  // The last has one neighbour only: it is a spike where it is as far off the line through the two before.
  const last = clean[count - 2];
  if (Math.abs(vacuumPa[count - 1] - (2 * last - clean[count - 3])) > 3 * far * last) clean[count - 1] = last;
  return clean;
}
