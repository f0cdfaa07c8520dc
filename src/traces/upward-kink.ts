import { type BendProfile, bendProfile } from './bend-profile.ts';

/** Where a curve turns up: the last sample before it does, and the samples between which that lies with 95 %. */
export interface Kink {
  readonly index: number;
  readonly lowIndex: number;
  readonly highIndex: number;
}

/** Reach of the two lines on either side of a kink [s]. */
const reachS = 120;
/** Fewest samples on a side. */
const fewest = 4;
/** A kink that gains less is noise. Common practice, no source; about 1e-7 for independent noise, and lag makes it more. */
const leastGain = 30;
/** So many places at most are tried in the first search. */
const places = 200;

/**
 * Finds where a curve that was falling or level jumps or turns upwards and stays up.
 *
 * First search: at places along the curve, one line through the stretch around is compared with two lines. Second
 * search, around the best: the curve is level or falling up to a sample, then bends up; every sample is tried.
 *
 * @param timesS ascending [s]
 * @param values e.g. the logarithm of a pressure
 * @param from first index looked at; @param to index after the last
 * @param noiseDeviation standard deviation of the noise [unit of values]
 * @returns undefined where nothing turns up clearly
 */
export function upwardKink(
  timesS: Float64Array,
  values: Float64Array,
  from: number,
  to: number,
  noiseDeviation: number,
): Kink | undefined {
  const near = roughKink(timesS, values, from, to, noiseDeviation);
  if (near === undefined) return undefined;
  const profile = bendProfile(timesS, values, { from, to, near, reachS }, noiseDeviation);
  return profile === undefined ? { index: near - 1, lowIndex: near - 1, highIndex: near } : withinProfile(profile);
}

/** Drop of the log-likelihood, twice, within which the true place lies with 95 % (χ², 1 degree of freedom). */
const dropAt95 = 3.84;

function withinProfile({ firstIndex, misfits }: BendProfile): Kink {
  let best = 0;
  for (let k = 1; k < misfits.length; k += 1) if (misfits[k] < misfits[best]) best = k;
  let low = best;
  let high = best;
  while (low > 0 && misfits[low - 1] < misfits[best] + dropAt95) low -= 1;
  while (high < misfits.length - 1 && misfits[high + 1] < misfits[best] + dropAt95) high += 1;
  // The bend lies between samples: one more on either side holds it.
  return {
    index: firstIndex + best,
    lowIndex: firstIndex + Math.max(0, low - 1),
    highIndex: firstIndex + Math.min(misfits.length - 1, high + 1),
  };
}

function roughKink(
  timesS: Float64Array,
  values: Float64Array,
  from: number,
  to: number,
  noiseDeviation: number,
): number | undefined {
  if (to - from < 2 * fewest) return undefined;
  const sums = prefixSums(timesS, values, from, to);
  const lowestAfter = lowestFrom(values, from, to);
  const variance = noiseDeviation ** 2;
  const stride = Math.max(1, Math.floor((to - from) / places));
  let best: number | undefined;
  let bestGain = leastGain;
  let left = from;
  let right = from;
  for (let i = from + fewest; i <= to - fewest; i += stride) {
    while (timesS[left] < timesS[i] - reachS) left += 1;
    while (right < to && timesS[right] <= timesS[i] + reachS) right += 1;
    const first = Math.min(left, i - fewest) - from;
    const last = Math.max(right, i + fewest) - from;
    const before = lineOver(sums, first, i - from);
    const after = lineOver(sums, i - from, last);
    const whole = lineOver(sums, first, last);
    const t = timesS[i] - timesS[from];
    const expected = before.y + before.slope * (t - before.t);
    const jump = after.y + after.slope * (t - after.t) - expected;
    const turnsUp = after.slope > before.slope && (after.slope > 0 || jump > 0) && jump > -2 * noiseDeviation;
    if (!turnsUp || lowestAfter[i - from] < expected - 4 * noiseDeviation) continue;
    const gain = (whole.squares - before.squares - after.squares) / variance;
    if (gain > bestGain) {
      best = i;
      bestGain = gain;
    }
  }
  return best;
}

interface Sums {
  t: Float64Array;
  tt: Float64Array;
  y: Float64Array;
  ty: Float64Array;
  yy: Float64Array;
}

function prefixSums(timesS: Float64Array, values: Float64Array, from: number, to: number): Sums {
  const sized = () => new Float64Array(to - from + 1);
  const sums: Sums = { t: sized(), tt: sized(), y: sized(), ty: sized(), yy: sized() };
  for (let i = from; i < to; i += 1) {
    const k = i - from;
    const t = timesS[i] - timesS[from];
    const y = values[i];
    sums.t[k + 1] = sums.t[k] + t;
    sums.tt[k + 1] = sums.tt[k] + t * t;
    sums.y[k + 1] = sums.y[k] + y;
    sums.ty[k + 1] = sums.ty[k] + t * y;
    sums.yy[k + 1] = sums.yy[k] + y * y;
  }
  return sums;
}

/** The line through samples `from` to before `to`: means, slope and squared residuals. */
function lineOver(sums: Sums, from: number, to: number): { t: number; y: number; slope: number; squares: number } {
  const n = to - from;
  const t = (sums.t[to] - sums.t[from]) / n;
  const y = (sums.y[to] - sums.y[from]) / n;
  const tt = sums.tt[to] - sums.tt[from] - n * t * t;
  const ty = sums.ty[to] - sums.ty[from] - n * t * y;
  const yy = sums.yy[to] - sums.yy[from] - n * y * y;
  const slope = tt > 0 ? ty / tt : 0;
  return { t, y, slope, squares: Math.max(0, yy - slope * ty) };
}

function lowestFrom(values: Float64Array, from: number, to: number): Float64Array {
  const lowest = new Float64Array(to - from);
  let least = Number.POSITIVE_INFINITY;
  for (let i = to - 1; i >= from; i -= 1) {
    if (values[i] < least) least = values[i];
    lowest[i - from] = least;
  }
  return lowest;
}
