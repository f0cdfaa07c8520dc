import type { RunColumn } from '../records/run-columns.ts';

/** What the system was doing, as the source says it; the place of a word in a column of places, from 1, 0 for none. */
export const runModes = ['cooling', 'heating', 'defrost'] as const;

/** What gauges, clamps and thermometers showed while a system ran, or stood. Parallel arrays, times ascending. */
export interface RunSeries {
  /** [s] since the log began. */
  readonly elapsedS: Float64Array;
  /** Pressures absolute; NaN where not read. Columns that nobody read are absent. */
  readonly columns: Readonly<Partial<Record<RunColumn, Float64Array>>>;
  /** Absent where the source never says. */
  readonly mode?: Float64Array | undefined;
  /** The vacuum gauge on the same rows [Pa]; NaN where not read. */
  readonly vacuumPa?: Float64Array | undefined;
}

/** The mean of a column over rows from one to before another, without those that were not read; NaN for none. */
export function meanOf(values: Float64Array | undefined, from: number, to: number): number {
  if (values === undefined) return Number.NaN;
  let sum = 0;
  let count = 0;
  for (let row = from; row < to; row += 1) {
    if (Number.isNaN(values[row])) continue;
    sum += values[row];
    count += 1;
  }
  return count === 0 ? Number.NaN : sum / count;
}
