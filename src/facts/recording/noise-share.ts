import { Scratch } from '../../numerics/scratch.ts';
import type { RecordedSeries } from '../../traces/recorded-series.ts';

/** Rows of a series, ends included. */
export interface Stretch {
  readonly fromIndex: number;
  readonly toIndex: number;
}

// Common practice, no source; set on simulated jobs (tests/truth).
/** Readings at about the same value: a vacuum within this ratio, temperatures within so much [K], others within that ratio. */
const vacuumTimes = 2;
const nearK = 5;
const nearRatio = 0.15;
/** A reading sticks out of its neighbours by so many steps: steady courses shown in steps bend by two. */
const bendSteps = 3;
/** Fewer readings tell of no noise. */
const fewest = 20;

const scratch = new Scratch();

/**
 * How noisy a sensor is at about the value that it repeats elsewhere: the share of its readings that stick out of their
 * neighbours by three of its steps and more, to one side and the other.
 *
 * @param equal the stretch with one value, left out
 * @param step of the sensor at its finest, in the unit of the values
 * @param within where its noise is like that of the stretch
 * @returns from 0 to 1; 0 where there are too few readings
 */
export function noiseShare(
  { column, values }: RecordedSeries,
  equal: Stretch & { readonly value: number },
  step: number,
  within: Stretch,
): number {
  const isNear = nearness(column, equal.value);
  let out = 0;
  let lastSign = 0;
  let before = Number.NaN;
  let middle = Number.NaN;
  let stepHere = Number.POSITIVE_INFINITY;
  const bends = scratch.take(Math.max(0, within.toIndex + 1 - within.fromIndex));
  let readings = 0;
  /** So many readings in a row are at about the value. */
  let near = 0;
  for (let row = within.fromIndex; row <= within.toIndex; row += 1) {
    if (row === equal.fromIndex) {
      near = 0;
      row = Math.min(equal.toIndex, within.toIndex);
      continue;
    }
    const value = values[row];
    if (Number.isNaN(value)) continue;
    near = isNear(value) ? near + 1 : 0;
    if (near >= 3) {
      bends[readings] = before - 2 * middle + value;
      readings += 1;
      const one = Math.abs(middle - before);
      const two = Math.abs(value - middle);
      if (one > 1e-6 && one < stepHere) stepHere = one;
      if (two > 1e-6 && two < stepHere) stepHere = two;
    }
    before = middle;
    middle = value;
  }
  const coarser = Math.max(step, stepHere === Number.POSITIVE_INFINITY ? step : stepHere);
  for (let i = 0; i < readings; i += 1) {
    const bend = bends[i];
    if (Math.abs(bend) < bendSteps * coarser * 0.99) continue;
    // A curve bends one way; noise goes to and fro.
    if (Math.sign(bend) !== lastSign) out += 1;
    lastSign = Math.sign(bend);
  }
  return readings < fewest ? 0 : out / readings;
}

function nearness(column: RecordedSeries['column'], value: number): (other: number) => boolean {
  if (column === 'vacuum_pa') return (other) => other > value / vacuumTimes && other < value * vacuumTimes;
  if (column.endsWith('_c')) return (other) => Math.abs(other - value) < nearK;
  return (other) => Math.abs(other - value) < nearRatio * Math.abs(value);
}
