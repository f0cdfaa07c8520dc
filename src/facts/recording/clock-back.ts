import { median } from '../../numerics/median.ts';
import type { RecordedColumn } from '../../records/recording-columns.ts';
import type { ScannedSeries } from './scanned-series.ts';

/** A clock that was put back in mid-log: two courses of readings lie between each other. */
export interface BackwardJump {
  readonly column: RecordedColumn;
  /** About how far: over so long the courses lie between each other [s]. */
  readonly jumpS: number;
  readonly startS: number;
}

// Common practice, no source; set on simulated jobs (tests/truth).
/** So many readings in a row alternate; one that does not takes off so many. */
const fewest = 16;
const missed = 3;
/** Neighbours are apart by so many times what every other reading is, and by so many steps of the sensor. */
const apartTimes = 3;
const apartSteps = 3;
/** There the time between readings is at most this share of what it is elsewhere. */
const mostShare = 0.7;
/** The interval elsewhere is told from so many places. */
const places = 60;

/**
 * Looks for a stretch in which the values go to and fro between two courses while the time between readings halves: readings
 * are kept by their time, so that those after a clock was put back fall between those before.
 */
export function backwardJump(all: readonly ScannedSeries[]): BackwardJump | undefined {
  for (const { series, scan } of all) {
    if (series.column === 'line_c') continue;
    const found = interleaved(series.elapsedS, series.values, scan.step);
    if (found !== undefined) return { column: series.column, ...found };
  }
  return undefined;
}

function interleaved(elapsedS: Float64Array, values: Float64Array, step: number) {
  const { score, from, to } = longestAlternation(values, step);
  if (score < fewest) return undefined;
  const jumpS = elapsedS[to] - elapsedS[from];
  const hereS = jumpS / (countRead(values, from, to) - 1);
  return hereS <= mostShare * usualElsewhere(elapsedS, values, from, to)
    ? { jumpS, startS: elapsedS[from] }
    : undefined;
}

/** The longest stretch in which the values go to and fro, and how many of them do. */
function longestAlternation(values: Float64Array, step: number) {
  let score = 0;
  let bestScore = 0;
  let bestFrom = 0;
  let bestTo = 0;
  let from = 0;
  // The last three readings, and where the last lies.
  let first = Number.NaN;
  let second = Number.NaN;
  let third = Number.NaN;
  let lastRow = 0;
  for (let row = 0; row < values.length; row += 1) {
    const value = values[row];
    if (Number.isNaN(value)) continue;
    const apart = Math.abs(value - third);
    const same = Math.abs(value - second) + Math.abs(third - first);
    // What is seldom so is asked first: noise alone goes to and fro at two of three readings.
    if (
      apart > apartTimes * same &&
      apart > apartSteps * step &&
      ((value > third && second > third) || (value < third && second < third))
    ) {
      if (score === 0) from = lastRow;
      score += 1;
      if (score > bestScore) {
        bestScore = score;
        bestFrom = from;
        bestTo = row;
      }
    } else if (score > 0) score = score > missed ? score - missed : 0;
    first = second;
    second = third;
    third = value;
    lastRow = row;
  }
  return { score: bestScore, from: bestFrom, to: bestTo };
}

function countRead(values: Float64Array, from: number, to: number): number {
  let count = 0;
  for (let row = from; row <= to; row += 1) if (!Number.isNaN(values[row])) count += 1;
  return count;
}

/** The median time between readings outside a stretch [s]; NaN where there are few. */
function usualElsewhere(elapsedS: Float64Array, values: Float64Array, from: number, to: number): number {
  const apartS: number[] = [];
  const stride = Math.max(1, Math.floor(values.length / places));
  for (let start = 0; start < values.length; start += stride) {
    let row = start;
    let last = -1;
    while (row < values.length && (last < 0 || Number.isNaN(values[row]))) {
      if (!Number.isNaN(values[row])) last = row;
      row += 1;
    }
    const isOutside = row < from || last > to;
    if (last >= 0 && row < values.length && isOutside) apartS.push(elapsedS[row] - elapsedS[last]);
  }
  return apartS.length < 8 ? Number.NaN : median(apartS);
}
