import { Scratch } from '../../numerics/scratch.ts';
import type { CurveStretch, PressureCurve } from './pressure-curve.ts';

/** A moment that shows in a curve wherever it is cut, later, or at another level; what the curve does around it. */
export interface Landmark {
  /** `edge`: the first reading within the gauge's range; `upward`, `downward`: a bend to that side. */
  readonly kind: LandmarkKind;
  readonly row: number;
  /**
   * How far the level lies above that of the landmark, `landmarkLagsS` before it in turn from the longest and then after it;
   * NaN where the curve does not reach.
   */
  readonly around: Float32Array;
}

export const landmarkKinds = ['edge', 'upward', 'downward'] as const;

export type LandmarkKind = (typeof landmarkKinds)[number];

// Common practice, no source; set on simulated fleets (tests/copies).
export const landmarkLagsS = [15, 40, 90, 180, 400] as const;
/** A level is the mean over so great a share of its lag on either side, and over so many intervals at least. */
const averagedShare = 0.15;
const averagedIntervals = 2.5;
/** A bend is told from straight lines of this length on either side [s], and of so many intervals at least. */
const slopeS = 40;
const slopeIntervals = 8;
/** A bend is so sharp, in standard deviations of a gauge with this noise. */
const sharpness = 8;
const usualNoise = 0.01;
/** Bends of a stretch at most, the sharpest. */
const mostBends = 5;
/** What moves less than this around a landmark looks like any other. */
const leastMove = 0.5;
/** Fewer levels around it tell too little. */
const fewestAround = 4;

/** The landmarks of a curve that tell it from others. */
export function landmarksOf(curve: PressureCurve): Landmark[] {
  return curve.stretches.flatMap((stretch) => {
    const sums = new StretchSums(curve, stretch);
    const isEdge = stretch.from > 0 && Number.isNaN(curve.levels[stretch.from - 1]);
    const edge = isEdge ? [landmark('edge', stretch.from, sums)] : [];
    return [...edge, ...bendsOf(curve, stretch, sums)].filter(isTelling);
  });
}

function isTelling({ around }: Landmark): boolean {
  let [least, most, count] = [0, 0, 0];
  for (const level of around) {
    if (Number.isNaN(level)) continue;
    count += 1;
    if (level < least) least = level;
    if (level > most) most = level;
  }
  return count >= fewestAround && most - least >= leastMove;
}

function landmark(kind: LandmarkKind, row: number, sums: StretchSums): Landmark {
  const { intervalS } = sums.curve;
  const atS = sums.curve.elapsedS[row];
  const around = new Float32Array(2 * landmarkLagsS.length).fill(Number.NaN);
  const here =
    kind === 'edge'
      ? sums.meanLevel(atS, atS + 2 * averagedIntervals * intervalS)
      : sums.meanLevel(atS - averagedIntervals * intervalS, atS + averagedIntervals * intervalS);
  for (const [index, lagS] of landmarkLagsS.entries()) {
    const halfS = Math.max(averagedIntervals * intervalS, averagedShare * lagS);
    // Beyond what tells the level of the landmark itself.
    const farS = lagS + 2 * averagedIntervals * intervalS;
    around[landmarkLagsS.length + index] = sums.meanLevel(atS + farS - halfS, atS + farS + halfS) - here;
    if (kind !== 'edge')
      around[landmarkLagsS.length - 1 - index] = sums.meanLevel(atS - farS - halfS, atS - farS + halfS) - here;
  }
  return { kind, row, around };
}

/** The sharpest bends, one within a straight line's length. */
function bendsOf({ elapsedS, intervalS }: PressureCurve, { from }: CurveStretch, sums: StretchSums): Landmark[] {
  const lineS = Math.max(slopeS, slopeIntervals * intervalS);
  const sharp = sums.bends(lineS);
  const candidates: number[] = [];
  for (let at = 0; at < sharp.length; at += 1) if (isLocalMost(sharp, at)) candidates.push(at);
  candidates.sort((a, b) => Math.abs(sharp[b]) - Math.abs(sharp[a]) || a - b);
  const bends: Landmark[] = [];
  for (const at of candidates) {
    if (bends.length === mostBends) break;
    const row = from + at;
    if (bends.some((bend) => Math.abs(elapsedS[bend.row] - elapsedS[row]) < lineS)) continue;
    bends.push(landmark(sharp[at] > 0 ? 'upward' : 'downward', row, sums));
  }
  return bends;
}

function isLocalMost(sharp: Float64Array, at: number): boolean {
  const size = Math.abs(sharp[at]);
  if (size <= sharpness) return false;
  for (let near = Math.max(0, at - 5); near <= Math.min(sharp.length - 1, at + 5); near += 1)
    if (Math.abs(sharp[near]) > size) return false;
  return true;
}

/** Used again for the next stretch: no sums outlive their landmarks. */
const scratch = {
  level: new Scratch(),
  time: new Scratch(),
  timeTime: new Scratch(),
  timeLevel: new Scratch(),
  sharp: new Scratch(),
};

/** Means and slopes over any part of a stretch, from running sums; one at a time. */
class StretchSums {
  readonly curve: PressureCurve;
  readonly #from: number;
  readonly #end: number;
  readonly #level: Float64Array;
  readonly #time: Float64Array;
  readonly #timeTime: Float64Array;
  readonly #timeLevel: Float64Array;

  constructor(curve: PressureCurve, { from, end }: CurveStretch) {
    this.curve = curve;
    this.#from = from;
    this.#end = end;
    const level = scratch.level.take(end - from + 1);
    level[0] = 0;
    const time = scratch.time.take(end - from + 1);
    time[0] = 0;
    const timeTime = scratch.timeTime.take(end - from + 1);
    timeTime[0] = 0;
    const timeLevel = scratch.timeLevel.take(end - from + 1);
    timeLevel[0] = 0;
    for (let row = from, at = 0; row < end; row += 1, at += 1) {
      const sinceS = curve.elapsedS[row] - curve.elapsedS[from];
      level[at + 1] = level[at] + curve.levels[row];
      time[at + 1] = time[at] + sinceS;
      timeTime[at + 1] = timeTime[at] + sinceS * sinceS;
      timeLevel[at + 1] = timeLevel[at] + sinceS * curve.levels[row];
    }
    this.#level = level;
    this.#time = time;
    this.#timeTime = timeTime;
    this.#timeLevel = timeLevel;
  }

  /** Mean level over a time; NaN where the stretch does not cover it or has not two readings in it. */
  meanLevel(fromS: number, toS: number): number {
    const { elapsedS, intervalS } = this.curve;
    if (fromS < elapsedS[this.#from] - intervalS || toS > elapsedS[this.#end - 1] + intervalS) return Number.NaN;
    const first = this.#rowAt(fromS);
    const end = this.#rowAt(toS);
    if (end - first < 2) return Number.NaN;
    return (this.#level[end - this.#from] - this.#level[first - this.#from]) / (end - first);
  }

  /**
   * At each reading of the stretch, how much steeper the line from it on is than the one up to it, in standard deviations of what
   * the usual noise does to that; 0 near the ends. Every reading of every job comes by here: written out, without calls.
   *
   * @param lineS length of either line [s]
   */
  bends(lineS: number): Float64Array {
    const { elapsedS } = this.curve;
    const [from, end] = [this.#from, this.#end];
    const [level, time, timeTime, timeLevel] = [this.#level, this.#time, this.#timeTime, this.#timeLevel];
    const sharp = scratch.sharp.take(end - from).fill(0);
    const startS = elapsedS[from];
    const stopS = elapsedS[end - 1];
    let before = from;
    let after = from;
    for (let row = from; row < end; row += 1) {
      const atS = elapsedS[row];
      while (elapsedS[before] < atS - lineS) before += 1;
      while (after < end && elapsedS[after] <= atS + lineS) after += 1;
      if (atS - startS < 0.9 * lineS || stopS - atS < 0.9 * lineS) continue;
      const first = before - from;
      const at = row - from;
      const last = after - from;
      const oneTime = time[at + 1] - time[first];
      const twoTime = time[last] - time[at];
      const oneRows = row + 1 - before;
      const twoRows = after - row;
      // Sums of squares of the times about their mean, and of the products of times and levels about theirs.
      const oneSpread = timeTime[at + 1] - timeTime[first] - (oneTime * oneTime) / oneRows;
      const twoSpread = timeTime[last] - timeTime[at] - (twoTime * twoTime) / twoRows;
      const oneTogether = timeLevel[at + 1] - timeLevel[first] - (oneTime * (level[at + 1] - level[first])) / oneRows;
      const twoTogether = timeLevel[last] - timeLevel[at] - (twoTime * (level[last] - level[at])) / twoRows;
      const steeper = twoTogether / twoSpread - oneTogether / oneSpread;
      sharp[at] = steeper / Math.sqrt(1 / oneSpread + 1 / twoSpread) / usualNoise;
    }
    return sharp;
  }

  /** First row of the stretch at or after a time. */
  #rowAt(atS: number): number {
    let [low, high] = [this.#from, this.#end];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.curve.elapsedS[middle] < atS) low = middle + 1;
      else high = middle;
    }
    return low;
  }
}
