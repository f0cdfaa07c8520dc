import { median } from '../numerics/median.ts';
import { turningPoints } from './turning-points.ts';
import { upwardKink } from './upward-kink.ts';
import type { PhaseMark, VacuumSeries } from './vacuum-series.ts';

/** A stretch of an evacuation. Times in seconds since the log began, indices into the series, `toIndex` included. */
export interface VacuumPhase {
  readonly phase: 'pull-down' | 'hold' | 'isolation' | 'break';
  readonly startS: number;
  readonly endS: number;
  readonly fromIndex: number;
  readonly toIndex: number;
  /** 95 % interval of an isolation's start [s]. */
  readonly startLowS?: number;
  readonly startHighS?: number;
  /** Whether the pressure itself shows an isolation, or only the source's mark says so. */
  readonly basis?: 'pressure' | 'mark';
}

/** The stretches of a whole log, in time order, and how often the system was pulled down. */
export interface VacuumPhases {
  readonly phases: readonly VacuumPhase[];
  readonly pulls: number;
}

/** Fewest readings from which phases are told. */
export const fewestReadings = 10;

// What follows is common practice, no source; the simulated fleets and the real logs of the tests set the values.
/** Pressure changes by less than this ratio are no turn of the curve. */
const leastTurn = Math.log(1.12);
/** A break raises the pressure at least so much … */
const breakRise = Math.log(10);
/** … within so many seconds … */
const breakWithinS = 60;
/** … to at least this pressure [Pa]. */
const breakToPa = 3_000;
/** A pull lowers the pressure at least so much. */
const pullFall = Math.log(3);
/** No isolation begins above this pressure [Pa]: there the gauge rests at the atmosphere or drifts. */
const isolationBelowPa = 30_000;
/** The tail of a pull in which the isolation is sought: from where the pressure is within this ratio of its lowest. */
const tailRatio = Math.log(4);
/** No gauge is quieter than this ratio. */
const leastNoise = 0.002;
/** Variance of a normal distribution cut to its middle nine tenths, as a ratio of the whole. */
const varianceOfNineTenths = 0.623;
/** A rise smaller than this ratio is weak: the marks of the source, where there are any, then decide. */
const weakRise = Math.log(1.1);
/** Pressure that stands for "above the gauge's range" [Pa]. */
const overPa = 101_325;

/**
 * Finds pull-downs, holds, isolations and breaks from the pressure alone; marks only help where the pressure is flat.
 *
 * @param series usable readings of one gauge: finite or +Infinity, times ascending
 * @param targetPa the pressure at or below which a pumped stretch counts as hold [Pa]
 * @param marks what the source says, in time order; a hint that is cross-checked
 * @returns no phases where there are fewer than `fewestReadings` readings
 */
export function findVacuumPhases(
  series: VacuumSeries,
  targetPa: number,
  marks: readonly PhaseMark[] = [],
): VacuumPhases {
  const { elapsedS, vacuumPa } = series;
  const count = vacuumPa.length;
  if (count < fewestReadings) return { phases: [], pulls: 0 };
  const levels = smoothedLevels(vacuumPa);
  const noise = levelNoise(levels);
  const cuts = breaksOf(elapsedS, levels, Math.max(leastTurn, 8 * noise));
  const phases: VacuumPhase[] = [];
  let pulls = 0;
  for (const { from, to, ends } of cuts) {
    const found = phasesOfPull(series, levels, from, to, targetPa, marks);
    if (found.pulled) pulls += 1;
    phases.push(...found.phases);
    if (ends !== undefined)
      phases.push({ phase: 'break', startS: elapsedS[to], endS: elapsedS[ends], fromIndex: to, toIndex: ends });
  }
  return { phases, pulls };
}

/** The logarithm of the pressure, spikes of one reading taken out by a running median of three. */
function smoothedLevels(vacuumPa: Float64Array): Float64Array {
  const count = vacuumPa.length;
  const raw = new Float64Array(count);
  for (let i = 0; i < count; i += 1) raw[i] = Math.log(vacuumPa[i] === Number.POSITIVE_INFINITY ? overPa : vacuumPa[i]);
  const levels = new Float64Array(count);
  levels[0] = raw[0];
  levels[count - 1] = raw[count - 1];
  for (let i = 1; i < count - 1; i += 1) {
    const a = raw[i - 1];
    const b = raw[i];
    const c = raw[i + 1];
    levels[i] = a > b ? (b > c ? b : a > c ? c : a) : a > c ? a : b > c ? c : b;
  }
  return levels;
}

/** Standard deviation of the noise of the levels over the whole log, from the median size of their second differences. */
function levelNoise(levels: Float64Array): number {
  const stride = Math.max(1, Math.floor(levels.length / 400));
  const sizes: number[] = [];
  for (let i = 1; i < levels.length - 1; i += stride)
    sizes.push(Math.abs(levels[i - 1] - 2 * levels[i] + levels[i + 1]));
  return Math.max(leastNoise, median(sizes) / 0.6745 / Math.sqrt(6));
}

/** How uncertain single readings are near the lowest pressure, and the step in which the gauge shows them. */
interface TailGrain {
  readonly noise: number;
  readonly step: number;
}

/**
 * Noise and step of the levels over a stretch near the lowest pressure, where the steps of a gauge are large against the
 * level: the root mean square of the second differences without the largest tenth, and no less than a step leaves uncertain.
 */
function tailGrain({ vacuumPa }: VacuumSeries, from: number, to: number): TailGrain {
  const squares: number[] = [];
  let stepPa = Number.POSITIVE_INFINITY;
  const stride = Math.max(1, Math.floor((to - from) / 400));
  for (let i = from + 1; i < to; i += stride) {
    const bend = (vacuumPa[i - 1] - 2 * vacuumPa[i] + vacuumPa[i + 1]) / vacuumPa[i];
    if (Number.isFinite(bend)) squares.push(bend * bend);
    const change = Math.abs(vacuumPa[i] - vacuumPa[i - 1]);
    if (change > 1e-6 && change < stepPa) stepPa = change;
  }
  squares.sort((a, b) => a - b);
  const kept = Math.ceil(squares.length * 0.9);
  let sum = 0;
  for (let i = 0; i < kept; i += 1) sum += squares[i];
  const scatter = kept === 0 ? 0 : Math.sqrt(sum / kept / 6 / varianceOfNineTenths);
  const step = stepPa === Number.POSITIVE_INFINITY ? 0 : stepPa / vacuumPa[from];
  return { noise: Math.max(leastNoise, scatter, 0.3 * step), step };
}

interface Cut {
  from: number;
  /** Last index before the break, or of the log. */
  to: number;
  /** Where the break ends; absent where the log does. */
  ends?: number;
}

/** Cuts the log at its breaks and where the pump was opened again after a rise. */
function breaksOf(elapsedS: Float64Array, levels: Float64Array, threshold: number): Cut[] {
  const cuts: Cut[] = [];
  let from = 0;
  const legs = turningPoints(levels, threshold);
  for (const [index, leg] of legs.entries()) {
    if (leg.direction !== 'rising') continue;
    const onset = breakOnset(elapsedS, levels, leg.from, leg.to);
    const next = legs[index + 1];
    const pumpedAgain = next !== undefined && levels[next.from] - levels[next.to] > leastTurn * 2;
    if (onset !== undefined) {
      cuts.push({ from, to: onset, ends: leg.to });
      from = leg.to;
    } else if (pumpedAgain && leg.from > 0 && levels[leg.to] - levels[leg.from] > threshold) {
      cuts.push({ from, to: leg.to });
      from = leg.to;
    }
  }
  if (from < levels.length - 1) cuts.push({ from, to: levels.length - 1 });
  return cuts;
}

/** The last reading before the pressure is brought up on purpose, within a rising leg. */
function breakOnset(elapsedS: Float64Array, levels: Float64Array, from: number, to: number): number | undefined {
  const enough = Math.log(breakToPa);
  let ahead = from;
  for (let i = from; i < to; i += 1) {
    while (ahead < to && elapsedS[ahead + 1] <= elapsedS[i] + breakWithinS) ahead += 1;
    const within = Math.max(ahead, i + 1);
    if (levels[within] - levels[i] < breakRise || levels[within] < enough) continue;
    // The steep part begins where a single step first goes up by a tenth of the whole.
    const rise = levels[within] - levels[i];
    for (let k = i; k < within; k += 1) if (levels[k + 1] - levels[k] > rise / 10) return k;
    return i;
  }
  return undefined;
}

function phasesOfPull(
  series: VacuumSeries,
  levels: Float64Array,
  from: number,
  to: number,
  targetPa: number,
  marks: readonly PhaseMark[],
): { phases: VacuumPhase[]; pulled: boolean } {
  const { elapsedS } = series;
  if (to - from < 2) return { phases: [], pulled: false };
  let lowest = from;
  for (let i = from; i <= to; i += 1) if (levels[i] < levels[lowest]) lowest = i;
  const pulled = levels[from] - levels[lowest] > pullFall;
  const isolation =
    levels[lowest] < Math.log(isolationBelowPa)
      ? isolationOf(series, levels, { from, to, lowest, pulled }, marks)
      : undefined;
  const pumpedTo = isolation?.fromIndex ?? to;
  const phases: VacuumPhase[] = [];
  if (pulled || pumpedTo > from) {
    const holdFrom = pumpedTo > from ? firstAtOrBelow(levels, from, pumpedTo, Math.log(targetPa)) : undefined;
    const pullTo = holdFrom ?? pumpedTo;
    if (pulled)
      phases.push({
        phase: 'pull-down',
        startS: elapsedS[from],
        endS: elapsedS[pullTo],
        fromIndex: from,
        toIndex: pullTo,
      });
    if (holdFrom !== undefined)
      phases.push({
        phase: 'hold',
        startS: elapsedS[holdFrom],
        endS: elapsedS[pumpedTo],
        fromIndex: holdFrom,
        toIndex: pumpedTo,
      });
  }
  if (isolation !== undefined) phases.push(isolation);
  return { phases, pulled };
}

interface Stretch {
  from: number;
  to: number;
  lowest: number;
  pulled: boolean;
}

function isolationOf(
  series: VacuumSeries,
  levels: Float64Array,
  { from, to, lowest, pulled }: Stretch,
  marks: readonly PhaseMark[],
): VacuumPhase | undefined {
  const { elapsedS } = series;
  const end = { endS: elapsedS[to], toIndex: to, phase: 'isolation' as const };
  if (!pulled && lowest - from < fewestReadings && levels[to] - levels[lowest] > leastTurn) {
    // The log begins with the valve already closed.
    return {
      ...end,
      startS: elapsedS[from],
      fromIndex: from,
      startLowS: elapsedS[from],
      startHighS: elapsedS[from],
      basis: 'pressure',
    };
  }
  let tail = lowest;
  while (tail > from && levels[tail - 1] - levels[lowest] < tailRatio) tail -= 1;
  const grain = tailGrain(series, tail, to);
  const kink = upwardKink(elapsedS, levels, tail, to + 1, grain.noise);
  if (kink === undefined) return markedIsolation(series, levels, tail, to, marks);
  const { index, lowIndex, highIndex } = kink;
  const rise =
    meanLevel(levels, Math.max(index, to - fewestReadings + 1), to) -
    meanLevel(levels, Math.max(tail, index - fewestReadings + 1), index);
  if (rise < 1.6 * grain.step) return markedIsolation(series, levels, tail, to, marks);
  const told = marks.some((mark) => mark.phase !== null && mark.elapsedS <= elapsedS[index]);
  if (rise < weakRise && told) return markedIsolation(series, levels, tail, to, marks);
  const [startLowS, startHighS] = [elapsedS[lowIndex], elapsedS[highIndex]];
  return { ...end, startS: elapsedS[index], fromIndex: index, startLowS, startHighS, basis: 'pressure' };
}

function meanLevel(levels: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i <= to; i += 1) sum += levels[i];
  return sum / (to - from + 1);
}

/** A marked isolation that the pressure does not contradict: it lies in the tail and the pressure does not fall in it. */
function markedIsolation(
  series: VacuumSeries,
  levels: Float64Array,
  tail: number,
  to: number,
  marks: readonly PhaseMark[],
): VacuumPhase | undefined {
  const { elapsedS } = series;
  const at = marks.findLastIndex(
    (mark) => mark.phase === 'isolation' && mark.elapsedS >= elapsedS[tail] && mark.elapsedS < elapsedS[to],
  );
  if (at < 0) return undefined;
  const endS = Math.min(elapsedS[to], marks[at + 1]?.elapsedS ?? elapsedS[to]);
  let fromIndex = tail;
  while (fromIndex < to && elapsedS[fromIndex] < marks[at].elapsedS) fromIndex += 1;
  let toIndex = fromIndex;
  while (toIndex < to && elapsedS[toIndex + 1] <= endS) toIndex += 1;
  if (toIndex - fromIndex < fewestReadings || levels[toIndex] < levels[fromIndex] - leastTurn) return undefined;
  return {
    phase: 'isolation',
    startS: elapsedS[fromIndex],
    endS: elapsedS[toIndex],
    fromIndex,
    toIndex,
    startLowS: elapsedS[tail],
    startHighS: elapsedS[toIndex],
    basis: 'mark',
  };
}

function firstAtOrBelow(levels: Float64Array, from: number, to: number, level: number): number | undefined {
  for (let i = from; i < to; i += 1) if (levels[i] <= level) return i;
  return undefined;
}
