import { solveSymmetric } from '../numerics/solve-symmetric.ts';

/** How badly a bend at each of a row of samples fits: squared residuals in units of the noise variance. */
export interface BendProfile {
  readonly firstIndex: number;
  readonly misfits: Float64Array;
}

export interface BendSearch {
  /** The curve that may be used: index of its first sample, and after its last. */
  readonly from: number;
  readonly to: number;
  /** A sample near the bend. */
  readonly near: number;
  /** How far the bend is sought on either side [s]; the fit reaches half as far again. */
  readonly reachS: number;
}

/** Every how many samples a bend is tried at first. */
const coarse = 4;

/**
 * Tries a bend at each sample near a place: y = a + b·t before it, a + b·t + c·r + d·√r after it, with r the time since
 * the bend. The square root follows a quick first jump that flattens, the linear term a steady climb.
 *
 * @returns undefined where there are too few samples
 */
export function bendProfile(
  timesS: Float64Array,
  values: Float64Array,
  { from, to, near, reachS }: BendSearch,
  noiseDeviation: number,
): BendProfile | undefined {
  let first = near;
  while (first > from && timesS[first - 1] >= timesS[near] - 1.5 * reachS) first -= 1;
  let last = near;
  while (last < to - 1 && timesS[last + 1] <= timesS[near] + 1.5 * reachS) last += 1;
  let low = near;
  while (low > first + 2 && timesS[low - 1] >= timesS[near] - reachS) low -= 1;
  let high = near;
  while (high < last - 3 && timesS[high + 1] <= timesS[near] + reachS) high += 1;
  if (low < first + 2 || high > last - 3 || high <= low) return undefined;
  const fit = new BendFit(timesS, values, first, last, noiseDeviation);
  const misfits = new Float64Array(high - low + 1).fill(Number.POSITIVE_INFINITY);
  let best = 0;
  for (let k = 0; k < misfits.length; k += coarse) {
    misfits[k] = fit.misfit(low + k);
    if (misfits[k] < misfits[best]) best = k;
  }
  const until = (step: number) => {
    const limit = misfits[best] + 10;
    for (let k = best + step; k >= 0 && k < misfits.length; k += step) {
      if (misfits[k] === Number.POSITIVE_INFINITY) misfits[k] = fit.misfit(low + k);
      if (misfits[k] > limit && Math.abs(k - best) >= coarse) break;
    }
  };
  until(-1);
  until(1);
  return { firstIndex: low, misfits };
}

class BendFit {
  readonly #t: Float64Array;
  readonly #y: Float64Array;
  readonly #noise: number;
  readonly #first: number;
  readonly #plain: { n: number; t: number; tt: number; y: number; ty: number; yy: number };
  readonly #matrix = new Float64Array(16);
  readonly #right = new Float64Array(4);

  constructor(timesS: Float64Array, values: Float64Array, first: number, last: number, noiseDeviation: number) {
    const base = timesS[first];
    const level = values[first];
    this.#first = first;
    this.#t = Float64Array.from(timesS.subarray(first, last + 1), (time) => (time - base) / 60);
    this.#y = Float64Array.from(values.subarray(first, last + 1), (value) => value - level);
    this.#noise = noiseDeviation;
    const sums = { n: this.#t.length, t: 0, tt: 0, y: 0, ty: 0, yy: 0 };
    for (let i = 0; i < this.#t.length; i += 1) {
      const t = this.#t[i];
      const y = this.#y[i];
      sums.t += t;
      sums.tt += t * t;
      sums.y += y;
      sums.ty += t * y;
      sums.yy += y * y;
    }
    this.#plain = sums;
  }

  /** Squared residuals with the bend at a sample, in units of the noise variance. */
  misfit(index: number): number {
    const bend = index - this.#first;
    const { n, t, tt, y, ty, yy } = this.#plain;
    let [r, rr, rq, rt, ry, q, qt, qy] = [0, 0, 0, 0, 0, 0, 0, 0];
    for (let i = bend + 1; i < this.#t.length; i += 1) {
      const since = this.#t[i] - this.#t[bend];
      const root = Math.sqrt(since);
      r += since;
      rr += since * since;
      rq += since * root;
      rt += since * this.#t[i];
      ry += since * this.#y[i];
      q += root;
      qt += root * this.#t[i];
      qy += root * this.#y[i];
    }
    // √r · √r = r, so the sum of its squares is that of r.
    this.#matrix.set([n, t, r, q, t, tt, rt, qt, r, rt, rr, rq, q, qt, rq, r]);
    this.#right.set([y, ty, ry, qy]);
    if (!solveSymmetric(this.#matrix, this.#right)) return Number.POSITIVE_INFINITY;
    const [a, b, c, d] = this.#right;
    return Math.max(0, yy - a * y - b * ty - c * ry - d * qy) / this.#noise ** 2;
  }
}
