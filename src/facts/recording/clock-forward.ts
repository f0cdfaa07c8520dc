import { lineFit, type LineFit } from '../../numerics/line-fit.ts';
import type { RecordedColumn } from '../../records/recording-columns.ts';
import type { ScannedSeries } from './scanned-series.ts';
import { usualInterval } from './usual-interval.ts';

/** A clock that was put forward in mid-log, as far as the readings tell. */
export interface ForwardJump {
  readonly sign: 'course' | 'length';
  readonly column: RecordedColumn;
  readonly jumpS: number;
  /** The last reading before, by the clock [s]. */
  readonly startS: number;
}

// Common practice, no source; set on simulated jobs (tests/truth).
/** Shorter gaps tell of no clock [s], nor those of fewer intervals. */
const leastS = 90;
const leastTimes = 10;
/** The course on either side is told from so many readings, and where it is slow against the noise from so many. */
const most = [7, 16] as const;
const fewest = 5;
/** A slope is one where it is so many times its error. */
const sureSlope = 5;
/** Both slopes are alike within this ratio. */
const alike = 3;
/** Over the gap the course would have gone so many times what it is uncertain by. */
const farTimes = 25;
/** … and at least so much: weather and sun come back to where they were. Ratio of pressures and of power, temperatures [K], masses [kg]. */
const leastTravelRatio = 0.1;
const leastTravelK = 5;
const leastTravelKg = 0.1;
/** The course goes on where it is off by no more than so many deviations. */
const onTimes = 3;
/** Where nothing moves a jump is told by its length alone, within this [s]: an hour, half a day, a day. */
const tellingS = [3600, 43_200, 86_400] as const;
const tellingWithinS = 3;

/** How one column goes on across a gap. */
type Course = 'goes-on' | 'still' | 'changed' | 'unknown';

/**
 * Looks for a gap across which every column goes on as if no time had passed: the slope before and after is one, and the value
 * goes on from it, though over the gap it would have gone far. Where nothing moves only a gap of just an hour, half a day or a
 * day looks like a clock.
 */
export function forwardJump(all: readonly ScannedSeries[]): ForwardJump | undefined {
  const gaps = all.flatMap(({ series, scan }) =>
    scan.gaps.map(({ fromIndex, toIndex }) => {
      const usualS = usualInterval(series.elapsedS, series.values, fromIndex, toIndex);
      const [fromS, toS] = [series.elapsedS[fromIndex], series.elapsedS[toIndex]];
      return { column: series.column, fromS, toS, usualS };
    }),
  );
  for (const { fromS, toS, usualS, column } of gaps) {
    const jumpS = toS - fromS - usualS;
    if (!(jumpS >= leastS && jumpS >= leastTimes * usualS)) continue;
    const courses = all.map(({ series, scan }) => ({
      column: series.column,
      course: courseOf(series, scan.step, fromS, toS),
    }));
    if (courses.some(({ course }) => course === 'changed')) continue;
    const telling = courses.find(({ course }) => course === 'goes-on');
    if (telling !== undefined) return { sign: 'course', column: telling.column, jumpS, startS: fromS };
    const isTelling = tellingS.some((lengthS) => Math.abs(jumpS - lengthS) <= Math.max(tellingWithinS, usualS));
    if (isTelling && courses.some(({ course }) => course === 'still'))
      return { sign: 'length', column, jumpS, startS: fromS };
  }
  return undefined;
}

/** Pressures of a vacuum move by ratios: their logarithm. */
function levelsOf({ column, values }: ScannedSeries['series']): (row: number) => number {
  return column === 'vacuum_pa' ? (row) => Math.log(Math.max(0.01, values[row])) : (row) => values[row];
}

/** How a column goes on across a gap, by few readings, or else by more. */
function courseOf(series: ScannedSeries['series'], step: number, fromS: number, toS: number): Course {
  const leastTravel = leastTravelOf(series, fromS);
  const [near, wide] = most.map((readings) =>
    courseAcross(series.elapsedS, levelsOf(series), { step, leastTravel, fromS, toS, readings }),
  );
  return near === 'goes-on' || near === 'changed' || wide === 'unknown' ? near : wide;
}

/** What a column must have been going to travel over a gap, in the unit of its levels. */
function leastTravelOf({ column, elapsedS, values }: ScannedSeries['series'], fromS: number): number {
  if (column === 'vacuum_pa') return leastTravelRatio;
  if (column === 'scale_kg') return leastTravelKg;
  if (column.endsWith('_c')) return leastTravelK;
  const value = values[Math.max(0, firstAtOrAfter(elapsedS, fromS + 1e-6) - 1)];
  return Number.isNaN(value) ? Number.POSITIVE_INFINITY : leastTravelRatio * value;
}

interface AcrossOptions {
  /** Of the sensor, and the least that the course must have been going to travel, in the unit of the levels. */
  readonly step: number;
  readonly leastTravel: number;
  /** Last reading before the gap, and first one after [s]. */
  readonly fromS: number;
  readonly toS: number;
  /** How many readings on either side are looked at. */
  readonly readings: number;
}

/** How a column goes on from before a gap to after it; unknown where it was not read on both sides, or within it. */
function courseAcross(
  elapsedS: Float64Array,
  level: (row: number) => number,
  { step, leastTravel, fromS, toS, readings }: AcrossOptions,
): Course {
  const after = firstAtOrAfter(elapsedS, toS);
  const before = side(elapsedS, level, firstAtOrAfter(elapsedS, fromS + 1e-6) - 1, -1, readings);
  const later = side(elapsedS, level, after, 1, readings);
  if (before.count < fewest || later.count < fewest) return 'unknown';
  // Each side must reach to the gap.
  const usualS = Math.max(spacing(before), spacing(later));
  const nearS = Math.max(fromS - before.x[before.count - 1], later.x[0] - toS);
  if (nearS > 3 * usualS) return 'unknown';
  const [one, two] = [fit(before), fit(later)];
  if (one === undefined || two === undefined) return 'unknown';
  const stepHere = step === 0 ? 0 : Math.min(step, ...changes(before), ...changes(later));
  const noise = Math.max(one.residualDeviation, two.residualDeviation, stepHere / 2, 1e-9);
  const [slope, otherSlope] = [one.slope, two.slope];
  const uncertain = noise * 2;
  const apart = levelAt(two, later.x[0]) - levelAt(one, before.x[before.count - 1]);
  const off = Math.abs(apart - ((slope + otherSlope) / 2) * usualS);
  const bend = Math.abs(slope - otherSlope) * usualS;
  if (off > onTimes * uncertain + bend) return 'changed';
  const moves = (line: LineFit) =>
    Math.abs(line.slope) > sureSlope * Math.max(line.slopeError, noise / spread(line, usualS));
  if (!moves(one) && !moves(two)) return 'still';
  const ratio = slope / otherSlope;
  // Where the slope changed at that moment nothing is told by it.
  if (!moves(one) || !moves(two) || !(ratio > 1 / alike && ratio < alike)) return 'unknown';
  const travel = Math.min(Math.abs(slope), Math.abs(otherSlope)) * (toS - fromS);
  return travel > Math.max(farTimes * uncertain, leastTravel) ? 'goes-on' : 'still';
}

/** Readings on one side of a gap, in order of time. */
interface Side {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly count: number;
}

function side(
  elapsedS: Float64Array,
  level: (row: number) => number,
  from: number,
  way: 1 | -1,
  readings: number,
): Side {
  const points: [number, number][] = [];
  for (let row = from; row >= 0 && row < elapsedS.length && points.length < readings; row += way) {
    const y = level(row);
    if (Number.isNaN(y)) continue;
    if (!Number.isFinite(y)) break;
    // Another gap ends what belongs together.
    const last = points.at(-1);
    const before = points.at(-2);
    if (last && before && Math.abs(elapsedS[row] - last[0]) > 4 * Math.abs(last[0] - before[0])) break;
    points.push([elapsedS[row], y]);
  }
  if (way === -1) points.reverse();
  return { x: points.map(([x]) => x), y: points.map(([, y]) => y), count: points.length };
}

function fit({ x, y }: Side): LineFit | undefined {
  return lineFit(x, y);
}

function spacing({ x, count }: Side): number {
  return (x[count - 1] - x[0]) / (count - 1);
}

/** The changes of the level on one side. */
function changes({ y }: Side): number[] {
  return y.slice(1).flatMap((level, place) => (level === y[place] ? [] : [Math.abs(level - y[place])]));
}

function levelAt(line: LineFit, atS: number): number {
  return line.level + line.slope * (atS - line.meanX);
}

/** The root of the sum of squared times about their mean [s]. */
function spread({ count }: LineFit, usualS: number): number {
  return usualS * Math.sqrt((count * (count * count - 1)) / 12);
}

function firstAtOrAfter(elapsedS: Float64Array, atS: number): number {
  let low = 0;
  let high = elapsedS.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (elapsedS[middle] < atS) low = middle + 1;
    else high = middle;
  }
  return low;
}
