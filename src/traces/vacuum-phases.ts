import { gaugeGrain, levelNoise } from './gauge-grain.ts';
import { pressureLevels } from './pressure-levels.ts';
import { upwardKink } from './upward-kink.ts';
import { topLeft, type VacuumCut, vacuumCuts } from './vacuum-cuts.ts';
import type { PhaseMark, VacuumSeries } from './vacuum-series.ts';

/** A stretch of an evacuation. Times in seconds since the log began, indices into the series, `toIndex` included. */
export interface VacuumPhase {
  readonly phase: 'pull-down' | 'hold' | 'isolation' | 'break';
  readonly startS: number;
  readonly endS: number;
  readonly fromIndex: number;
  readonly toIndex: number;
  /** Interval that holds an isolation's start with at least 95 % [s]. */
  readonly startLowS?: number;
  readonly startHighS?: number;
  /** Whether the pressure itself shows an isolation, or only the source's mark says so. */
  readonly basis?: 'pressure' | 'mark';
  /** Of a pumped stretch: its pressure turns up a little at the end, and the marks of the source tell of no isolation. */
  readonly turnsUp?: true;
}

/** The stretches of a whole log, in time order, and how often the system was pulled down. What lies in none is idle: the gauge rests. */
export interface VacuumPhases {
  readonly phases: readonly VacuumPhase[];
  readonly pulls: number;
}

/** Levels are used within a call and not after: one memory for all logs spares the collector as much again as the log. */
let levelMemory = new Float64Array(4096);

/** Fewest readings from which phases are told. */
export const fewestReadings = 10;

// What follows is common practice, no source; the simulated fleets and the real logs of the tests set the values.
/** Pressure changes by less than this ratio are no turn of the curve. */
const leastTurn = Math.log(1.12);
/** A pull lowers the pressure at least so much. */
const pullFall = Math.log(3);
/** No isolation begins above this pressure [Pa]: there the gauge rests at the atmosphere or drifts. */
const isolationBelowPa = 30_000;
/** The tail of a pull in which the isolation is sought: from where the pressure is within this ratio of its lowest. */
const tailRatio = Math.log(4);
/** Readings within so many seconds tell the level at a moment. */
const nearS = 20;
/** Readings further apart than this make a coarse log [s]. */
const coarseS = 12;
/** A range of the valve-off so wide [s] leaves room for a mark. */
const unclearS = 15;
/** The slope of a rise is taken over so many seconds. */
const soonS = 60;
/** A marked isolation of fewer readings says nothing. */
const fewestMarked = 3;
/** A rise smaller than this ratio is weak: the marks of the source, where there are any, then decide. */
const weakRise = Math.log(1.1);
/** A rise smaller than this ratio shows no isolation: gauges drift as much. */
const leastRise = Math.log(1.02);

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
  if (levelMemory.length < count) levelMemory = new Float64Array(2 * count);
  const levels = pressureLevels(series, levelMemory);
  const noise = levelNoise(levels);
  const cuts = vacuumCuts(series, levels, Math.max(leastTurn, 8 * noise));
  const phases: VacuumPhase[] = [];
  let pulls = 0;
  for (const cut of cuts) {
    const { to, ends } = cut;
    const found = phasesOfPull(series, levels, cut, targetPa, marks);
    if (found.pulled) pulls += 1;
    phases.push(...found.phases);
    if (ends !== undefined)
      phases.push({ phase: 'break', startS: elapsedS[to], endS: elapsedS[ends], fromIndex: to, toIndex: ends });
  }
  return { phases, pulls };
}

function phasesOfPull(
  series: VacuumSeries,
  levels: Float64Array,
  { from, to, reopened = false }: VacuumCut,
  targetPa: number,
  marks: readonly PhaseMark[],
): { phases: VacuumPhase[]; pulled: boolean } {
  const { elapsedS } = series;
  if (to - from < 2) return { phases: [], pulled: false };
  let lowest = from;
  let lowestLevel = levels[from];
  for (let i = from; i <= to; i += 1) {
    if (levels[i] >= lowestLevel) continue;
    lowest = i;
    lowestLevel = levels[i];
  }
  const pulled = reopened || levels[from] - levels[lowest] > pullFall;
  const sought =
    levels[lowest] < Math.log(isolationBelowPa)
      ? isolationOf(series, levels, { from, to, lowest, pulled }, marks)
      : undefined;
  const isolation = sought === 'contradicted' ? undefined : sought;
  const doubt = sought === 'contradicted' ? { turnsUp: true as const } : {};
  const pumpedTo = isolation?.fromIndex ?? to;
  const phases: VacuumPhase[] = [];
  if (pulled || pumpedTo > from) {
    const holdFrom = pumpedTo > from ? firstAtOrBelow(levels, from, pumpedTo, Math.log(targetPa)) : undefined;
    const pullTo = holdFrom ?? pumpedTo;
    // Before the pump is opened the gauge rests.
    const opened = pulled ? topLeft(levels, from, Math.min(lowest, pullTo)) : from;
    if (pulled)
      phases.push({
        phase: 'pull-down',
        startS: elapsedS[opened],
        endS: elapsedS[pullTo],
        fromIndex: opened,
        toIndex: pullTo,
        ...(holdFrom === undefined ? doubt : {}),
      });
    if (holdFrom !== undefined)
      phases.push({
        phase: 'hold',
        startS: elapsedS[holdFrom],
        endS: elapsedS[pumpedTo],
        fromIndex: holdFrom,
        toIndex: pumpedTo,
        ...doubt,
      });
  }
  if (isolation !== undefined) phases.push(isolation);
  // A log that begins below the target was cut during its pull.
  return { phases, pulled: pulled || (from === 0 && phases[0]?.phase === 'hold') };
}

interface Stretch {
  from: number;
  to: number;
  lowest: number;
  pulled: boolean;
}

/** The isolation at the end of a pull; `contradicted` where only a weak rise shows one and the marks tell of none. */
function isolationOf(
  series: VacuumSeries,
  levels: Float64Array,
  { from, to, lowest, pulled }: Stretch,
  marks: readonly PhaseMark[],
): VacuumPhase | 'contradicted' | undefined {
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
  const grain = gaugeGrain(series, levels, tail, to, lowest);
  const kink = upwardKink(elapsedS, levels, tail, to + 1, grain.noise, grain.repeats);
  if (kink === undefined) return markedIsolation(series, levels, tail, to, marks);
  const { index, lowIndex, highIndex } = kink;
  // Of a fall that goes on to the kink only the last readings tell the level there; of a coarse log only the last.
  let near = index;
  while (near > tail && index - near < fewestMarked - 1 && elapsedS[near - 1] >= elapsedS[index] - nearS) near -= 1;
  const far = Math.max(tail, index - fewestReadings + 1);
  const before = Math.min(meanLevel(levels, near, index), meanLevel(levels, far, index));
  // A coarse log has few readings to average over, and must not average its rise away.
  const ending = Math.min(fewestReadings, Math.max(fewestMarked, Math.floor((to - index) / 4)));
  const rise = meanLevel(levels, Math.max(index, to - ending + 1), to) - before;
  if (rise < Math.max(0.7 * grain.step, leastRise)) return markedIsolation(series, levels, tail, to, marks);
  const told = marks.some((mark) => mark.phase !== null && mark.elapsedS <= elapsedS[index]);
  if (rise < weakRise && told) return markedIsolation(series, levels, tail, to, marks) ?? 'contradicted';
  // A gauge in steps shows a rise only when it has gone over the next one.
  // Of a coarse log the bend may lie two readings off.
  const spacingS = (elapsedS[to] - elapsedS[tail]) / (to - tail);
  const hiddenS = stepDelay(elapsedS, levels, index, to, before, grain.step) + (spacingS > coarseS ? 2 * spacingS : 0);
  const [startLowS, startHighS] = [
    Math.max(elapsedS[tail], elapsedS[lowIndex] - hiddenS),
    Math.min(elapsedS[to], elapsedS[highIndex] + hiddenS),
  ];
  // Where the pressure leaves much open, a mark within that range tells the moment.
  const mark =
    startHighS - startLowS < unclearS
      ? undefined
      : marks.findLast(({ phase, elapsedS: atS }) => phase === 'isolation' && atS >= startLowS && atS <= startHighS);
  let fromIndex = index;
  if (mark !== undefined) {
    while (fromIndex < to - 1 && elapsedS[fromIndex + 1] <= mark.elapsedS) fromIndex += 1;
    while (fromIndex > tail && elapsedS[fromIndex] > mark.elapsedS) fromIndex -= 1;
  }
  return { ...end, startS: elapsedS[fromIndex], fromIndex, startLowS, startHighS, basis: 'pressure' };
}

/** How long a rise takes to go over half a step of the gauge [s], by its mean slope over the first minute. */
function stepDelay(
  elapsedS: Float64Array,
  levels: Float64Array,
  index: number,
  to: number,
  before: number,
  step: number,
): number {
  let last = index;
  while (last < to && elapsedS[last] < elapsedS[index] + soonS) last += 1;
  const rise = meanLevel(levels, Math.max(index, last - 2), last) - before;
  const tookS = elapsedS[last] - elapsedS[index];
  return rise > 0 ? Math.min(tookS / 2, (tookS * step) / 2 / rise) : tookS / 2;
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
  if (toIndex - fromIndex < fewestMarked || levels[toIndex] < levels[fromIndex] - leastTurn) return undefined;
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
