import { median } from '../numerics/median.ts';
import { medianOfThree } from '../numerics/median-of-three.ts';
import type { PressureSeries } from './pressure-series.ts';
import { warmingRatio } from './warming-ratio.ts';
import { withoutSpikes } from './without-spikes.ts';

/** Where the pressure was changed on purpose: nitrogen let in, or let off. */
export interface PressureMove {
  /** 1 where it was let in, −1 where it was let off. */
  readonly sign: 1 | -1;
  /** Last reading before, and first one after. */
  readonly fromIndex: number;
  readonly toIndex: number;
}

// Common practice, no source; set on simulated tests (tests/truth).
/** A change is told over so many seconds at least: soon, and where the gauge is coarse or the filling slow. */
const spansS = [10, 60, 300] as const;
/** Faster than this, as a ratio a second, nitrogen is let in: no sun warms a pipe by 18 K a minute … */
const fillingPerS = 1e-3;
/** … nor by 20 K in five minutes, or between two readings. */
const fillingRatio = 0.07;
/** Where the pipe was logged: a rise of so much more than the pipe could have brought, between readings this near [s], is a topping up. */
const toppingRatio = 0.012;
const toppingS = 120;
/** Faster than this it is let off: a leak that fast is no test … */
const releasePerS = 2e-3;
/** … or by more than this ratio within seconds or between two readings. */
const releaseRatio = 0.25;
/** Between readings farther apart than this [s] a leak may have done that, unless it is let off to about the air [Pa]: 14 psig. */
const seldomS = 900;
const letOffPa = 200_000;
/** A fall by this ratio within so long [s] was let off, where the pressure moves by less than this share of it before and after. */
const steppedRatio = 0.04;
const steppedS = 120;
const levelShare = 0.1;
/** A change is seen where it is so many times the grain of the gauge. */
const seenGrains = 3.5;
/** A move goes on while it is faster than these. */
const stillFillingPerS = 1.5e-4;
const stillReleasingPerS = 5e-4;
/** A move has begun where it has come this share of its way: before, sun and leak may have moved the pressure too … */
const begunRatio = 0.03;
/** … and is over where so little of it is left. */
const doneRatio = 0.005;
/** Neighbours agree where they differ by less than this ratio. */
const agreeingRatio = 0.01;
/** Noise is told from so many readings. */
const tellingNoise = 500;
/** A change of less than this ratio between neighbours may be a step of the gauge; where there is none, its step is taken for 1 psi [Pa]. */
const slowRatio = 0.02;
export const usualStepPa = 6895;
/** Less than this ratio in all is no move … */
const leastRatio = 0.01;
/** … nor is a fall of less than this right after a filling: there the gas cools. */
const settlingRatio = 0.15;
/** How soon is right after [s]. */
const rightAfterS = 20;

/**
 * Where nitrogen was let in or off, from the pressure alone.
 *
 * Told by how fast the pressure changes, as a ratio of the absolute pressure: temperature and leaks that leave a test to
 * judge are slower. The gauge's own grain is no change. What shows within seconds parts the log first; what is slower is
 * looked for between.
 *
 * @param series its pipe temperatures, where there are, tell a topping up of a few psi from the sun
 */
export function pressureMoves({ elapsedS, testPa, lineK }: PressureSeries): PressureMove[] {
  const last = testPa.length - 1;
  const clean = withoutBlips(withoutSpikes(elapsedS, testPa));
  const warming = lineK === undefined ? undefined : warmingRatio(elapsedS, lineK);
  const curve: Curve = { elapsedS, clean, grainPa: grainOf(testPa), warming };
  let moves: PressureMove[] = [];
  for (const spanS of spansS) {
    const found: PressureMove[] = [];
    for (let place = 0; place <= moves.length; place += 1) {
      const before = place === 0 ? undefined : moves[place - 1];
      const to = moves[place]?.fromIndex ?? last;
      found.push(...movesBetween(curve, { before, from: before?.toIndex ?? 0, to }, spanS));
      if (place < moves.length) found.push(moves[place]);
    }
    moves = found;
  }
  return moves;
}

/** Without single readings a little off neighbours that agree, however seldom the log is read. */
function withoutBlips(testPa: Float64Array): Float64Array {
  const clean = testPa.slice();
  for (let at = 1; at < testPa.length - 1; at += 1) {
    const before = testPa[at - 1];
    const after = testPa[at + 1];
    const apart = Math.abs(before - after) / Math.max(before, after, 1);
    const off = Math.abs(testPa[at] - before) / Math.max(before, testPa[at], 1);
    if (apart < agreeingRatio && off < releaseRatio) clean[at] = medianOfThree(before, testPa[at], after);
  }
  return clean;
}

/** A log without spikes, and what of a change may be the gauge's grain [Pa]. */
interface Curve {
  readonly elapsedS: Float64Array;
  readonly clean: Float64Array;
  readonly grainPa: number;
  /** By what ratio the pipe's temperature moved around each reading; absent where it was not logged. */
  readonly warming: Float64Array | undefined;
}

/** From one reading to another, both included, and the move before. */
interface Stretch {
  readonly before: PressureMove | undefined;
  readonly from: number;
  readonly to: number;
}

/** The moves within a stretch that show over so many seconds. */
function movesBetween(curve: Curve, { before, from, to }: Stretch, spanS: number): PressureMove[] {
  const { elapsedS, clean } = curve;
  const { until, isFast, goesOn } = speedsOf(curve, from, to, spanS);
  const moves: PressureMove[] = [];
  for (let at = from; at < to; ) {
    const sign = isFast(at);
    if (sign === 0) {
      at += 1;
      continue;
    }
    let first = at;
    while (first > from && goesOn(first - 1, sign)) first -= 1;
    let next = at + 1;
    while (next < to && (isFast(next) === sign || goesOn(next, sign))) next += 1;
    const last = moves.at(-1);
    const earliest = last?.toIndex ?? from;
    const move = trimmed(curve, sign, { earliest, first: Math.max(first, earliest), last: until(next - 1) });
    if (move.toIndex > move.fromIndex && isMove(elapsedS, clean, move, last ?? before)) {
      if (last?.sign === sign && move.fromIndex <= last.toIndex)
        moves[moves.length - 1] = { ...last, toIndex: Math.max(last.toIndex, move.toIndex) };
      else moves.push(move);
    }
    at = next;
  }
  return moves;
}

/** What of a change may be the gauge's grain [Pa]; told from some hundred readings where the pressure moves slowly. */
function grainOf(testPa: Float64Array): number {
  const stride = Math.max(1, Math.floor(testPa.length / tellingNoise));
  const bends: number[] = [];
  for (let at = 1; at < testPa.length - 1; at += stride) {
    const before = testPa[at] - testPa[at - 1];
    const after = testPa[at + 1] - testPa[at];
    if (Math.max(Math.abs(before), Math.abs(after)) < slowRatio * testPa[at]) bends.push(Math.abs(after - before));
  }
  const noisePa = bends.length === 0 ? 0 : median(bends) / 0.6745 / Math.sqrt(6);
  return Math.max(stepOf(testPa), 2 * noisePa);
}

/** The smallest change between neighbours [Pa]; where nothing but the filling moves, that is no step of the gauge. */
function stepOf(testPa: Float64Array): number {
  let stepPa = Number.POSITIVE_INFINITY;
  for (let at = 1; at < testPa.length; at += 1) {
    const change = Math.abs(testPa[at] - testPa[at - 1]);
    if (change > 1e-3 && change < stepPa && change < slowRatio * testPa[at]) stepPa = change;
  }
  return Number.isFinite(stepPa) ? stepPa : usualStepPa;
}

/** How fast the pressure changes from each reading of a stretch on, over so many seconds. */
function speedsOf({ elapsedS, clean, grainPa, warming }: Curve, from: number, to: number, spanS: number) {
  const ends = endsAfter(elapsedS, from, to, spanS);
  const until = (at: number) => ends[at - from];
  const change = (at: number) => Math.log(Math.max(1, clean[until(at)]) / Math.max(1, clean[at]));
  const perS = (at: number) => change(at) / Math.max(1e-9, elapsedS[until(at)] - elapsedS[at]);
  const isSeen = (at: number) => Math.abs(clean[until(at)] - clean[at]) > seenGrains * grainPa;
  const isLetOffUnseen = (at: number) =>
    spanS === spansS[0] &&
    change(at) < -releaseRatio &&
    (elapsedS[until(at)] - elapsedS[at] <= seldomS || clean[until(at)] < letOffPa);
  const isLetDown = (at: number) => {
    const end = until(at);
    const tookS = elapsedS[end] - elapsedS[at];
    if (tookS > steppedS || change(at) > -steppedRatio || at <= from || end >= to) return false;
    let before = at - 1;
    while (before > from && elapsedS[at] - elapsedS[before] < tookS) before -= 1;
    const was = Math.log(Math.max(1, clean[at]) / Math.max(1, clean[before]));
    return Math.max(Math.abs(was), Math.abs(change(end))) < -change(at) * levelShare;
  };
  const isToppedUp = (at: number) =>
    warming !== undefined && elapsedS[until(at)] - elapsedS[at] <= toppingS && change(at) > toppingRatio + warming[at];
  return {
    until,
    /** 1 where nitrogen is let in from a reading on, −1 where it is let off, 0 for neither. */
    isFast: (at: number): 1 | -1 | 0 => {
      if (!isSeen(at)) return 0;
      if (perS(at) > fillingPerS || change(at) > fillingRatio || isToppedUp(at)) return 1;
      return perS(at) < -releasePerS || isLetOffUnseen(at) || isLetDown(at) ? -1 : 0;
    },
    goesOn: (at: number, sign: 1 | -1): boolean =>
      isSeen(at) && sign * perS(at) > (sign === 1 ? stillFillingPerS : stillReleasingPerS),
  };
}

/** Per reading of a stretch the first one at least so much later, or the last. */
function endsAfter(elapsedS: Float64Array, from: number, to: number, spanS: number): Int32Array {
  const ends = new Int32Array(to + 1 - from);
  for (let at = from, end = from; at <= to; at += 1) {
    end = Math.max(end, Math.min(at + 1, to));
    while (end < to && elapsedS[end] < elapsedS[at] + spanS) end += 1;
    ends[at - from] = end;
  }
  return ends;
}

/** A move without the level stretches at its ends; it may have begun before it was fast, but not before a reading. */
function trimmed(
  { elapsedS, clean, grainPa }: Curve,
  sign: 1 | -1,
  { earliest, first, last }: { readonly earliest: number; readonly first: number; readonly last: number },
): PressureMove {
  let low = first;
  let high = first;
  for (let at = first; at <= last; at += 1) {
    if (sign * clean[at] < sign * clean[low]) low = at;
    if (sign * clean[at] > sign * clean[high]) high = at;
  }
  const wholePa = sign * (clean[high] - clean[low]);
  const [begunPa, donePa] = [begunRatio, doneRatio].map((ratio) => Math.max(grainPa, ratio * wholePa));
  let [from, to] = [first, last];
  for (let at = first; at <= last; at += 1) if (sign * (clean[at] - clean[low]) <= begunPa) from = at;
  for (let at = last; at > from; at -= 1) if (sign * (clean[high] - clean[at]) <= donePa) to = at;
  // What is already on its way belongs to the move, however little of it that is.
  const stillPerS = sign === 1 ? stillFillingPerS : stillReleasingPerS;
  const perS = (at: number) => (sign * Math.log(clean[at] / clean[at - 1])) / (elapsedS[at] - elapsedS[at - 1]);
  while (from > earliest && perS(from) > stillPerS) from -= 1;
  return { sign, fromIndex: from, toIndex: Math.min(last, Math.max(to, from + 1)) };
}

function isMove(
  elapsedS: Float64Array,
  clean: Float64Array,
  { sign, fromIndex, toIndex }: PressureMove,
  before: PressureMove | undefined,
): boolean {
  const ratio = (sign * (clean[toIndex] - clean[fromIndex])) / Math.max(clean[fromIndex], clean[toIndex]);
  if (ratio < leastRatio) return false;
  const followsFilling = before?.sign === 1 && elapsedS[fromIndex] - elapsedS[before.toIndex] <= rightAfterS;
  return !(sign === -1 && followsFilling && ratio < settlingRatio);
}
