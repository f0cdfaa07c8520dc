/** Where a curve turns up: the sample, how clearly, and the samples between which it lies with 95 %. */
export interface Kink {
  readonly index: number;
  /** Drop of the squared residuals by allowing the kink, in units of the noise variance. */
  readonly gain: number;
  readonly lowIndex: number;
  readonly highIndex: number;
}

/** Reach of the two lines on either side of a kink [s]. */
const reachS = 120;
/** Fewest samples on a side. */
const fewest = 4;
/** A kink that gains less is noise. Common practice, no source; about 1e-7 for independent noise, and lag makes it less. */
const leastGain = 30;
/** Drop of the gain within which the true place lies with 95 % (χ², 1 degree of freedom). */
const dropAt95 = 3.84;

/**
 * Finds where a curve that was falling or level jumps or turns upwards and stays up: at every sample, one line through
 * the stretch around it is compared with two lines that meet nowhere in particular.
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
  if (to - from < 2 * fewest) return undefined;
  const sums = prefixSums(timesS, values, from, to);
  const lowestAfter = lowestFrom(values, from, to);
  const gains = new Float64Array(to - from);
  const variance = noiseDeviation ** 2;
  let best = -1;
  let left = from;
  let right = from;
  for (let i = from + fewest; i <= to - fewest; i += 1) {
    while (timesS[left] < timesS[i] - reachS) left += 1;
    while (right < to && timesS[right] <= timesS[i] + reachS) right += 1;
    const first = Math.min(left, i - fewest);
    const last = Math.max(right, i + fewest);
    const before = lineOver(sums, first - from, i - from);
    const after = lineOver(sums, i - from, last - from);
    const whole = lineOver(sums, first - from, last - from);
    const t = timesS[i] - timesS[from];
    const jump = after.at(t) - before.at(t);
    const turnsUp = after.slope > before.slope && (after.slope > 0 || jump > 0) && jump > -2 * noiseDeviation;
    const staysUp = lowestAfter[i - from] > before.at(t) - 4 * noiseDeviation;
    if (!turnsUp || !staysUp) continue;
    gains[i - from] = (whole.squares - before.squares - after.squares) / variance;
    if (best < 0 || gains[i - from] > gains[best]) best = i - from;
  }
  if (best < 0 || gains[best] < leastGain) return undefined;
  let low = best;
  let high = best;
  while (low > 0 && gains[low - 1] > gains[best] - dropAt95) low -= 1;
  while (high < gains.length - 1 && gains[high + 1] > gains[best] - dropAt95) high += 1;
  // The sample before the first of the right-hand line may still be the last of the left-hand one.
  return { index: from + best, gain: gains[best], lowIndex: Math.max(from, from + low - 1), highIndex: from + high };
}

interface Sums {
  t: Float64Array;
  tt: Float64Array;
  y: Float64Array;
  ty: Float64Array;
  yy: Float64Array;
}

function prefixSums(timesS: Float64Array, values: Float64Array, from: number, to: number): Sums {
  const size = to - from + 1;
  const sums: Sums = {
    t: new Float64Array(size),
    tt: new Float64Array(size),
    y: new Float64Array(size),
    ty: new Float64Array(size),
    yy: new Float64Array(size),
  };
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

function lineOver(sums: Sums, from: number, to: number): { slope: number; squares: number; at: (t: number) => number } {
  const n = to - from;
  const t = (sums.t[to] - sums.t[from]) / n;
  const y = (sums.y[to] - sums.y[from]) / n;
  const tt = sums.tt[to] - sums.tt[from] - n * t * t;
  const ty = sums.ty[to] - sums.ty[from] - n * t * y;
  const yy = sums.yy[to] - sums.yy[from] - n * y * y;
  const slope = tt > 0 ? ty / tt : 0;
  return { slope, squares: Math.max(0, yy - slope * ty), at: (time) => y + slope * (time - t) };
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
