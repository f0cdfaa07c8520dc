import type { DuckDBResult } from '@duckdb/node-api';

/** Some rows of a result, column by column. */
export interface ColumnRows {
  readonly count: number;
  /** Columns of numbers, in their order. */
  readonly numbers: readonly Float64Array[];
  /** Columns of texts, in their order. */
  readonly texts: readonly (readonly (string | null)[])[];
}

/**
 * The rows of a result, some at a time: far faster than row by row where there are many.
 *
 * @param result its columns of numbers, all DOUBLE and none of them null, come before those of texts
 * @param numbers how many columns of numbers it has
 */
export async function* readColumns(result: DuckDBResult, numbers: number): AsyncGenerator<ColumnRows> {
  for (let chunk = await result.fetchChunk(); chunk !== null && chunk.rowCount > 0; chunk = await result.fetchChunk()) {
    const vectors = Array.from({ length: chunk.columnCount }, (_, at) => chunk.getColumnVector(at));
    const count = chunk.rowCount;
    yield {
      count,
      numbers: vectors.slice(0, numbers).map((vector) => (vector as unknown as { items: Float64Array }).items),
      texts: vectors
        .slice(numbers)
        .map((vector) => Array.from({ length: count }, (_, row) => vector.getItem(row) as string | null)),
    };
  }
}
