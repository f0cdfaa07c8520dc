import type { RecordedColumn } from '../records/recording-columns.ts';

/** What one column of the readings shows on one job. Parallel arrays, times ascending. */
export interface RecordedSeries {
  readonly column: RecordedColumn;
  /** [s] since the log began. */
  readonly elapsedS: Float64Array;
  /** In the unit of the column, temperatures of `line_c` in K; NaN where not read, +Infinity above a gauge's range. */
  readonly values: Float64Array;
}

/** One value that a series repeats without a change, not-read rows in between left out. */
export interface EqualStretch {
  readonly fromIndex: number;
  readonly toIndex: number;
  readonly readings: number;
  readonly value: number;
}

/** A longer time between two readings of a series than between those before. */
export interface SeriesGap {
  /** Last reading before, and first one after. */
  readonly fromIndex: number;
  readonly toIndex: number;
}

/** A series at a glance, from one pass. */
export interface SeriesScan {
  /** Finite readings, and those above the range of the gauge. */
  readonly readings: number;
  readonly over: number;
  readonly least: number;
  readonly most: number;
  readonly mean: number;
  /** Smallest change between neighbours, which is the step of a sensor that shows in steps; 0 where nothing changes. */
  readonly step: number;
  /** How many readings are outside the limits that were asked, and the farthest of them. */
  readonly outside: number;
  readonly worst: number;
  readonly equal: EqualStretch | undefined;
  readonly gaps: readonly SeriesGap[];
}

/** A smaller change is a conversion of units, no step. */
const leastStep = 1e-6;
/** A time between readings is looked at as a gap from here on [s], and from so many times the one before. Common practice, no source. */
const leastGapS = 15;
const gapTimes = 4;
/** As many gaps as are kept. */
const mostGaps = 200;

/**
 * Looks once at every reading of a series.
 *
 * @param low, @param high readings below or above are counted as outside, in the unit of the values
 */
export function scanSeries({ elapsedS, values }: RecordedSeries, low: number, high: number): SeriesScan {
  let readings = 0;
  let over = 0;
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  let sum = 0;
  let step = Number.POSITIVE_INFINITY;
  let outside = 0;
  let worst = Number.NaN;
  let equalFrom = 0;
  let equalTo = 0;
  let longest = 1;
  const gaps: SeriesGap[] = [];
  let last = -1;
  let lastS = Number.NaN;
  let lastValue = Number.NaN;
  let beforeS = Number.NaN;
  let isAfterGap = false;
  let from = 0;
  let run = 0;
  let isOutside = false;
  for (let row = 0; row < values.length; row += 1) {
    const value = values[row];
    if (Number.isNaN(value)) continue;
    // No gap before the first reading, nor before the second, where no interval is known yet.
    const atS = elapsedS[row];
    const apartS = atS - lastS;
    const isGap = apartS > leastGapS && apartS > gapTimes * beforeS;
    if (isGap && gaps.length < mostGaps) gaps.push({ fromIndex: last, toIndex: row });
    // Two in a row are another interval.
    if (!isGap || isAfterGap) beforeS = apartS;
    isAfterGap = isGap;
    last = row;
    lastS = atS;
    if (value === Number.POSITIVE_INFINITY) over += 1;
    else {
      readings += 1;
      sum += value;
    }
    if (value === lastValue) {
      run += 1;
      if (run > longest && value < Number.POSITIVE_INFINITY) {
        longest = run;
        equalFrom = from;
        equalTo = row;
      }
    } else {
      const change = Math.abs(value - lastValue);
      if (change < step && change > leastStep) step = change;
      from = row;
      run = 1;
      lastValue = value;
      isOutside = false;
      if (value < Number.POSITIVE_INFINITY) {
        if (value < least) least = value;
        if (value > most) most = value;
        if (value < low || value > high) {
          isOutside = true;
          const beyond = value < low ? low - value : value - high;
          const worstBeyond = worst < low ? low - worst : worst - high;
          if (!(beyond <= worstBeyond)) worst = value;
        }
      }
    }
    if (isOutside) outside += 1;
  }
  return {
    readings,
    over,
    least,
    most,
    mean: sum / readings,
    step: step === Number.POSITIVE_INFINITY ? 0 : step,
    outside,
    worst,
    equal:
      longest < 2 ? undefined : { fromIndex: equalFrom, toIndex: equalTo, readings: longest, value: values[equalFrom] },
    gaps,
  };
}
