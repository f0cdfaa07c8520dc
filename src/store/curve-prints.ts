import type { DuckDBValue } from '@duckdb/node-api';
import type { JobCurve } from '../facts/recording/job-curves.ts';
import { type CurveBits, unpackedBits } from '../traces/curve/curve-bits.ts';
import type { CurvePrint } from '../traces/curve/curve-print.ts';
import type { KeptLandmark } from '../traces/curve/landmark-index.ts';
import type { Store } from './store.ts';

/** The print of one curve of a job. */
export interface JobCurvePrint extends Pick<JobCurve, 'column' | 'gauge'> {
  readonly print: CurvePrint;
}

/** Curves by number, from `from` to before `end`. */
export interface CurveRange {
  readonly from: number;
  readonly end: number;
}

/** The bits of the curves in `temp.<wanted>`, a table with a column `curve_id`. */
export async function keptBits(store: Store, wanted: string): Promise<Map<number, CurveBits>> {
  const bits = new Map<number, CurveBits>();
  for await (const [ids, blobs] of columnsOfRows(
    store,
    `SELECT curve_id, bits FROM curves SEMI JOIN temp.${wanted} USING (curve_id)`,
  ))
    for (const [at, id] of ids.entries()) bits.set(Number(id), unpackedBits(bytesOf(blobs[at])));
  return bits;
}

/**
 * The landmarks of curves, in the order of their cells.
 *
 * @param cells a temporary table with a column `cell`: landmarks of other cells are left out; absent: none are
 */
export async function keptLandmarks(store: Store, { from, end }: CurveRange, cells?: string): Promise<KeptLandmark[]> {
  const landmarks: KeptLandmark[] = [];
  const only = cells === undefined ? '' : `SEMI JOIN temp.${cells} USING (cell)`;
  const select = `SELECT curve_id, cell, at_row, around FROM curve_landmarks ${only}
    WHERE curve_id >= ${from} AND curve_id < ${end} ORDER BY cell, curve_id, at_row`;
  for await (const [ids, cellNumbers, rows, around] of columnsOfRows(store, select))
    for (const [at, id] of ids.entries())
      landmarks.push({
        curve: Number(id),
        cell: Number(cellNumbers[at]),
        row: Number(rows[at]),
        around: new Int16Array(bytesOf(around[at]).buffer),
      });
  return landmarks;
}

/** The columns of a result, chunk by chunk; no other statement may run meanwhile. */
async function* columnsOfRows(store: Store, select: string): AsyncGenerator<DuckDBValue[][]> {
  const result = await store.connection.stream(select);
  for await (const chunk of result) if (chunk.rowCount > 0) yield chunk.getColumns();
}

/** The bytes of a blob, in memory of their own: numbers are read from its start. */
function bytesOf(value: DuckDBValue): Uint8Array<ArrayBuffer> {
  return Uint8Array.from((value as { bytes: Uint8Array }).bytes);
}
