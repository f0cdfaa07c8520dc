import { lineFit } from '../../numerics/line-fit.ts';
import type { RecordedSeries } from '../../traces/recorded-series.ts';
import type { Stretch } from './noise-share.ts';

// Common practice, no source; set on simulated jobs (tests/truth).
/** The course on either side is told from so many readings. */
const most = 8;
const fewest = 5;
/** A slope is one where it is so many times its error. */
const sureSlope = 5;
/** What is caught up at once is so many steps of the sensor, … */
const leastSteps = 20;
/** … and what the slopes on both sides, the smaller and the larger, would have brought meanwhile, within these ratios. */
const leastShare = 0.6;
const mostShare = 1.5;
/** From one reading to the next the course on either side goes no farther than this share of it. */
const smoothShare = 0.25;

/**
 * Whether a series that stood still then jumps at once to where its course would have gone meanwhile: a display or a
 * transmission that hung.
 *
 * @param equal the stretch with one value
 * @param step of the sensor, in the unit of the values
 */
export function caughtUp({ column, elapsedS, values }: RecordedSeries, equal: Stretch, step: number): boolean {
  const level = (row: number) => (column === 'vacuum_pa' ? Math.log(Math.max(0.01, values[row])) : values[row]);
  const before = points(elapsedS, level, equal.fromIndex, -1);
  const after = points(elapsedS, level, equal.toIndex + 1, 1);
  if (before.x.length < fewest || after.x.length < fewest) return false;
  const [one, two] = [lineFit(before.x, before.y), lineFit(after.x, after.y)];
  if (one === undefined || two === undefined || Math.sign(one.slope) !== Math.sign(two.slope)) return false;
  if (!(Math.abs(one.slope) > sureSlope * one.slopeError && Math.abs(two.slope) > sureSlope * two.slopeError))
    return false;
  const jump = after.y[0] - level(equal.toIndex);
  const stoodS = after.x[0] - elapsedS[equal.fromIndex];
  const slopes = [Math.abs(one.slope), Math.abs(two.slope)].toSorted((a, b) => a - b);
  const size = Math.abs(jump);
  if (Math.sign(jump) !== Math.sign(one.slope)) return false;
  if (Math.abs(values[equal.toIndex + 1] - values[equal.toIndex]) < leastSteps * step) return false;
  const steps = [
    ...before.y.slice(1).map((y, at) => y - before.y[at]),
    ...after.y.slice(1).map((y, at) => y - after.y[at]),
  ];
  if (steps.some((each) => Math.abs(each) > smoothShare * size)) return false;
  return size >= leastShare * slopes[0] * stoodS && size <= mostShare * slopes[1] * stoodS;
}

/** Readings from a row on, one way or the other, in order of time. */
function points(elapsedS: Float64Array, level: (row: number) => number, from: number, way: 1 | -1) {
  const found: [number, number][] = [];
  for (let row = from; row >= 0 && row < elapsedS.length && found.length < most; row += way) {
    const y = level(row);
    if (Number.isNaN(y)) continue;
    if (!Number.isFinite(y)) break;
    found.push([elapsedS[row], y]);
  }
  if (way === -1) found.reverse();
  return { x: found.map(([x]) => x), y: found.map(([, y]) => y) };
}
