import { type RunColumn, runColumns } from '../records/run-columns.ts';
import type { RunSeries } from '../traces/run-series.ts';

/** The columns of a job's rows that tell of a running system, as far as the segment has them. */
export type RunningColumns = Readonly<Partial<Record<RunColumn | 'run_mode' | 'vacuum_pa', Float64Array>>>;

/** Without one of these nothing is told of a running system. */
const telling = ['suction_pa', 'liquid_pa', 'suction_line_c', 'liquid_line_c', 'compressor_w'] as const;

/**
 * The readings of a running system, or of one that stands with gauges on it: from the first to the last row that tells of it.
 *
 * @param elapsedS [s], ascending
 * @returns undefined where no such reading is
 */
export function runSeries(elapsedS: Float64Array, all: RunningColumns): RunSeries | undefined {
  let from = elapsedS.length;
  let to = -1;
  for (const name of telling) {
    const values = all[name];
    if (values === undefined) continue;
    for (let row = values.length - 1; row > to; row -= 1) if (!Number.isNaN(values[row])) to = row;
    for (let row = 0; row < from && row <= to; row += 1) if (!Number.isNaN(values[row])) from = row;
  }
  if (to < 0) return undefined;
  const part = (values: Float64Array | undefined) => values?.subarray(from, to + 1);
  const columns: Partial<Record<RunColumn, Float64Array>> = {};
  for (const name of runColumns) {
    const values = part(all[name]);
    if (values !== undefined && isRead(values)) columns[name] = values;
  }
  return {
    elapsedS: elapsedS.subarray(from, to + 1),
    columns,
    mode: part(all.run_mode),
    vacuumPa: part(all.vacuum_pa),
  };
}

function isRead(values: Float64Array): boolean {
  for (let row = 0; row < values.length; row += 1) if (!Number.isNaN(values[row])) return true;
  return false;
}
