import { groupMeans } from '../numerics/group-means.ts';
import { Scratch } from '../numerics/scratch.ts';
import { solveSymmetric } from '../numerics/solve-symmetric.ts';

/** How badly a bend at each of a row of samples fits: squared residuals in units of the noise variance. */
export interface BendProfile {
  readonly firstIndex: number;
  /** How many samples lie from one place to the next. */
  readonly step: number;
  readonly misfits: Float64Array;
  /** Index of the best in `misfits`. */
  readonly best: number;
  /** How many readings the fit went through. */
  readonly count: number;
}

export interface BendSearch {
  /** The curve that may be used: index of its first sample, and after its last. */
  readonly from: number;
  readonly to: number;
  /** The first and the last sample at which a bend is tried. */
  readonly low: number;
  readonly high: number;
  /** How far the fit reaches beyond these on either side [s]. */
  readonly reachS: number;
}

/** A fit goes through so many samples at most; of more, neighbours are taken together. */
const mostSamples = 110;
/** Variance of the mean of many readings of a gauge with lag, over that of independent ones. Common practice, no source. */
export const lagVariance = 2;
/** A misfit so much above the best is left behind. */
const clearlyWorse = 14;
/** So many places are tried at first, but no neighbours. */
const places = 14;

const scratch = { times: new Scratch(), means: new Scratch() };

/**
 * Tries a bend at each sample of a stretch: y = a + b·t before it, a + b·t + c·r + d·√r + e·(1 − exp(−r/τ)) after it,
 * with r the time since the bend: a steady climb, one that flattens, and a jump as a gauge with lag shows it.
 *
 * @returns undefined where there are too few samples
 */
export function bendProfile(
  timesS: Float64Array,
  values: Float64Array,
  search: BendSearch,
  noiseDeviation: number,
): BendProfile | undefined {
  const { from, to, reachS } = search;
  let first = search.low;
  while (first > from && timesS[first - 1] >= timesS[search.low] - reachS) first -= 1;
  let last = search.high;
  while (last < to - 1 && timesS[last + 1] <= timesS[search.high] + reachS) last += 1;
  const step = Math.max(1, Math.ceil((last + 1 - first) / mostSamples));
  const times = groupMeans(timesS, first, last + 1, step, scratch.times);
  const means = groupMeans(values, first, last + 1, step, scratch.means);
  const low = Math.max(Math.floor((search.low - first) / step), 2);
  const high = Math.min(Math.floor((search.high - first) / step), times.length - 4);
  if (high <= low) return undefined;
  fit.take(times, means, noiseDeviation * (step === 1 ? 1 : Math.sqrt(lagVariance / step)));
  const misfits = new Float64Array(high - low + 1).fill(Number.POSITIVE_INFINITY);
  let best = 0;
  const coarse = Math.max(4, Math.floor(misfits.length / places));
  for (let k = 0; k < misfits.length; k += coarse) {
    misfits[k] = fit.misfit(low + k);
    if (misfits[k] < misfits[best]) best = k;
  }
  // From the best of the coarse places down to the bottom, then on until it is clearly left behind on either side.
  const until = (step: number) => {
    for (let k = best + step; k >= 0 && k < misfits.length; k += step) {
      if (misfits[k] === Number.POSITIVE_INFINITY) misfits[k] = fit.misfit(low + k);
      if (misfits[k] < misfits[best]) best = k;
      else if (misfits[k] > misfits[best] + clearlyWorse && Math.abs(k - best) >= coarse) break;
    }
  };
  until(-1);
  until(1);
  until(-1);
  // A place is the last sample of its group.
  return { firstIndex: first + (low + 1) * step - 1, step, misfits, best, count: times.length };
}

/** Time constant of the jump right after the bend [min]: a gauge's own lag. Common practice, no source. */
const jumpMin = 1 / 60;

/** So soon after the bend [min] the curve must not lie below it. */
const soonMin = 15 / 60;

/** After so many time constants a jump is over. */
const jumpOver = 8;

/** Sums over the samples from one on to the last, one entry for each sample and a 0 at the end. */
interface SuffixSums {
  readonly t: Float64Array;
  readonly tt: Float64Array;
  readonly y: Float64Array;
  readonly ty: Float64Array;
}

/** Fits bends to samples; its memory is made once, and every curve is taken after the other. */
class BendFit {
  #count = 0;
  readonly #t = new Float64Array(mostSamples);
  readonly #y = new Float64Array(mostSamples);
  #noise = 0;
  readonly #sums: SuffixSums = {
    t: new Float64Array(mostSamples + 1),
    tt: new Float64Array(mostSamples + 1),
    y: new Float64Array(mostSamples + 1),
    ty: new Float64Array(mostSamples + 1),
  };
  /** Squares of all values. */
  #squares = 0;
  /** Of one line through all. */
  #straightMisfit = 0;
  readonly #matrix = new Float64Array(25);
  readonly #right = new Float64Array(5);

  /** Takes a curve of as many samples as there is memory for at most. */
  take(timesS: Float64Array, values: Float64Array, noiseDeviation: number): void {
    const count = timesS.length;
    const times = this.#t;
    const own = this.#y;
    const sums = this.#sums;
    sums.t[count] = 0;
    sums.tt[count] = 0;
    sums.y[count] = 0;
    sums.ty[count] = 0;
    let squares = 0;
    for (let i = count - 1; i >= 0; i -= 1) {
      const t = (timesS[i] - timesS[0]) / 60;
      const y = values[i] - values[0];
      times[i] = t;
      own[i] = y;
      sums.t[i] = sums.t[i + 1] + t;
      sums.tt[i] = sums.tt[i + 1] + t * t;
      sums.y[i] = sums.y[i + 1] + y;
      sums.ty[i] = sums.ty[i + 1] + t * y;
      squares += y * y;
    }
    this.#count = count;
    this.#noise = noiseDeviation;
    this.#squares = squares;
    const spread = sums.tt[0] - sums.t[0] ** 2 / count;
    const slope = spread > 0 ? (sums.ty[0] - (sums.t[0] * sums.y[0]) / count) / spread : 0;
    const residuals = squares - sums.y[0] ** 2 / count - slope ** 2 * spread;
    this.#straightMisfit = Math.max(0, residuals) / noiseDeviation ** 2;
  }

  /** Squared residuals with the bend at a sample, in units of the noise variance; where that bends down, without it. */
  misfit(bend: number): number {
    const times = this.#t;
    const values = this.#y;
    const sums = this.#sums;
    const count = this.#count;
    const t0 = times[bend];
    const after = bend + 1;
    const n = count - after;
    // Sums of r = t − t0 and its products follow from those of t; only the root and the jump are summed anew.
    const r = sums.t[after] - n * t0;
    const rt = sums.tt[after] - t0 * sums.t[after];
    const rr = rt - t0 * r;
    const ry = sums.ty[after] - t0 * sums.y[after];
    let q = 0;
    let rq = 0;
    let qt = 0;
    let qy = 0;
    let j = 0;
    let jj = 0;
    let jr = 0;
    let jq = 0;
    let jt = 0;
    let jy = 0;
    let i = after;
    for (; i < count && times[i] - t0 < jumpOver * jumpMin; i += 1) {
      const since = times[i] - t0;
      const root = Math.sqrt(since);
      const jump = 1 - Math.exp(-since / jumpMin);
      q += root;
      rq += since * root;
      qt += root * times[i];
      qy += root * values[i];
      j += jump;
      jj += jump * jump;
      jr += jump * since;
      jq += jump * root;
      jt += jump * times[i];
      jy += jump * values[i];
    }
    const settled = i;
    const jumpedRoots = q;
    for (; i < count; i += 1) {
      const since = times[i] - t0;
      const root = Math.sqrt(since);
      q += root;
      rq += since * root;
      qt += root * times[i];
      qy += root * values[i];
    }
    j += count - settled;
    jj += count - settled;
    jr += sums.t[settled] - (count - settled) * t0;
    jq += q - jumpedRoots;
    jt += sums.t[settled];
    jy += sums.y[settled];
    const t = sums.t[0];
    const tt = sums.tt[0];
    const y = sums.y[0];
    const ty = sums.ty[0];
    // √r · √r = r, so the sum of its squares is that of r.
    const matrix = this.#matrix;
    // The lower triangle; nothing reads the upper one.
    matrix[0] = count;
    matrix[5] = t;
    matrix[6] = tt;
    matrix[10] = r;
    matrix[11] = rt;
    matrix[12] = rr;
    matrix[15] = q;
    matrix[16] = qt;
    matrix[17] = rq;
    matrix[18] = r;
    matrix[20] = j;
    matrix[21] = jt;
    matrix[22] = jr;
    matrix[23] = jq;
    matrix[24] = jj;
    const right = this.#right;
    right[0] = y;
    right[1] = ty;
    right[2] = ry;
    right[3] = qy;
    right[4] = jy;
    if (!solveSymmetric(matrix, right)) return Number.POSITIVE_INFINITY;
    const a = right[0];
    const b = right[1];
    const c = right[2];
    const d = right[3];
    const e = right[4];
    const spanMin = times[count - 1] - t0;
    const gain = (sinceMin: number) => (b + c) * sinceMin + d * Math.sqrt(sinceMin) + e;
    if (gain(Math.min(soonMin, spanMin)) < -this.#noise || c * spanMin + d * Math.sqrt(spanMin) + e < 0)
      return this.#straightMisfit;
    return Math.max(0, this.#squares - a * y - b * ty - c * ry - d * qy - e * jy) / this.#noise ** 2;
  }
}

const fit = new BendFit();
