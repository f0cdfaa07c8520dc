/** Memory for columns, used again for the next rows: fresh memory costs as much as what is read into it. */
export class ColumnBuffers {
  readonly #kept = new Map<string, Float64Array>();

  /** Room for a column's values, which are still those of another time. */
  take(column: string, length: number): Float64Array {
    let kept = this.#kept.get(column);
    if (kept === undefined || kept.length < length) {
      kept = new Float64Array(length);
      this.#kept.set(column, kept);
    }
    return kept.subarray(0, length);
  }
}
