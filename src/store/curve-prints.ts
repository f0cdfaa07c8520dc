import type { DuckDBAppender, DuckDBValue } from '@duckdb/node-api';
import type { JobCurve } from '../facts/recording/job-curves.ts';
import { type CurveBits, packedBits, unpackedBits } from '../traces/curve/curve-bits.ts';
import type { CurvePrint } from '../traces/curve/curve-print.ts';
import { cellOf, keptLevels, type KeptLandmark } from '../traces/curve/landmark-index.ts';
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

/** Appends the prints of curves to the catalogue. */
export class CurveAppender {
  readonly #tables: readonly [curves: DuckDBAppender, words: DuckDBAppender, landmarks: DuckDBAppender];
  readonly #from: number;
  #next: number;

  private constructor(tables: [DuckDBAppender, DuckDBAppender, DuckDBAppender], next: number) {
    this.#tables = tables;
    this.#from = next;
    this.#next = next;
  }

  static async begin(store: Store): Promise<CurveAppender> {
    const [{ next }] = await store.rows<{ next: number }>('SELECT coalesce(max(curve_id), 0) + 1 AS next FROM curves');
    const { connection } = store;
    return new CurveAppender(
      [
        await connection.createAppender('curves', 'main'),
        await connection.createAppender('curve_words', 'main'),
        await connection.createAppender('curve_landmarks', 'main'),
      ],
      next,
    );
  }

  /** The curves appended so far. */
  get range(): CurveRange {
    return { from: this.#from, end: this.#next };
  }

  append(jobId: string, { column, gauge, print }: JobCurvePrint): void {
    const [curves, words, landmarks] = this.#tables;
    const id = BigInt(this.#next);
    this.#next += 1;
    curves.appendBigInt(id);
    curves.appendVarchar(jobId);
    curves.appendVarchar(column);
    if (gauge === null) curves.appendNull();
    else curves.appendVarchar(gauge);
    curves.appendBlob(packedBits(print.bits));
    curves.endRow();
    for (const { word, row } of print.words) {
      words.appendBigInt(id);
      words.appendBigInt(BigInt(word));
      words.appendInteger(row);
      words.endRow();
    }
    for (const { kind, row, around } of print.landmarks) {
      const levels = keptLevels(around);
      const cell = cellOf(kind, levels);
      if (cell === undefined) continue;
      landmarks.appendBigInt(id);
      landmarks.appendBigInt(BigInt(cell));
      landmarks.appendInteger(row);
      landmarks.appendBlob(new Uint8Array(levels.buffer));
      landmarks.endRow();
    }
  }

  end(): void {
    for (const appender of this.#tables) appender.closeSync();
  }

  /** Forgets what was appended and not yet written. */
  abandon(): void {
    for (const appender of this.#tables) appender.clear();
  }
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
