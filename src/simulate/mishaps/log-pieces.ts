import type { JobReadings } from '../job-log.ts';

/** A stretch of a log: its times, and the columns that were read in it. */
export interface LogPiece {
  readonly elapsedS: Float64Array;
  readonly columns: Readonly<Partial<Record<Exclude<keyof JobReadings, 'elapsedS'>, Float64Array>>>;
}

/** Rows of a log, so much later [s]. */
export function rowsOf(readings: JobReadings, from: number, to: number, byS: number): LogPiece {
  const { elapsedS, ...columns } = readings;
  return {
    elapsedS: elapsedS.subarray(from, to).map((atS) => Math.round((atS + byS) * 10) / 10),
    columns: Object.fromEntries(Object.entries(columns).map(([name, values]) => [name, values.subarray(from, to)])),
  };
}

/** One log of pieces in the order of their times, with the columns of another; NaN where a piece does not have one. */
export function joinedPieces(like: JobReadings, pieces: readonly LogPiece[]): JobReadings {
  const rows = pieces.reduce((sum, { elapsedS }) => sum + elapsedS.length, 0);
  const joined = (valuesOf: (piece: LogPiece) => Float64Array | undefined) => {
    const all = new Float64Array(rows).fill(Number.NaN);
    let at = 0;
    for (const piece of pieces) {
      const values = valuesOf(piece);
      if (values !== undefined) all.set(values, at);
      at += piece.elapsedS.length;
    }
    return all;
  };
  const { elapsedS: _, ...columns } = like;
  const names = Object.keys(columns) as (keyof typeof columns)[];
  return {
    ...(Object.fromEntries(names.map((name) => [name, joined((piece) => piece.columns[name])])) as Omit<
      JobReadings,
      'elapsedS'
    >),
    elapsedS: joined(({ elapsedS }) => elapsedS),
  };
}
