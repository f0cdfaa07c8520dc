/** A symmetric matrix of which only what stands on and below the diagonal, and is not 0, is told. */
export interface SparseSymmetric {
  /** Rows, and columns. */
  readonly size: number;
  /** Row and column of each entry; the same place may come several times, and its values add up. */
  readonly rows: Int32Array;
  readonly columns: Int32Array;
}

/**
 * Cholesky's method for large symmetric positive definite matrices that are mostly 0, of a shape that is solved for many values: what
 * few others meet goes first, so that little that is 0 fills up.
 *
 * Source: textbook: minimum degree, L D Lᵀ; `takahashi-1973` for the inverse. Accuracy: that of `solveSymmetric`.
 *
 * @example
 * const shape = new SparseCholesky({ size: 2, rows: Int32Array.of(0, 1, 1), columns: Int32Array.of(0, 0, 1) });
 * shape.factor(Float64Array.of(4, 2, 3));
 * [...shape.solve(Float64Array.of(2, 1))] // [0.5, 0]
 */
export class SparseCholesky {
  readonly #size: number;
  /** Which row comes at each place of the order. */
  readonly #order: Int32Array;
  /** Below the diagonal of each column of L, by place: the places that are not 0, ascending. */
  readonly #below: Int32Array[];
  readonly #lower: Float64Array[];
  readonly #diagonal: Float64Array;
  /** Where each entry goes: column by place, and index there; −1 on the diagonal. */
  readonly #entryColumn: Int32Array;
  readonly #entryIndex: Int32Array;

  constructor({ size, rows, columns }: SparseSymmetric) {
    this.#size = size;
    const { order, below } = eliminated(size, rows, columns);
    this.#order = order;
    this.#below = below;
    this.#lower = below.map((places) => new Float64Array(places.length));
    this.#diagonal = new Float64Array(size);
    const placeOf = new Int32Array(size);
    for (const [place, row] of order.entries()) placeOf[row] = place;
    this.#entryColumn = new Int32Array(rows.length);
    this.#entryIndex = new Int32Array(rows.length);
    for (let entry = 0; entry < rows.length; entry += 1) {
      const [a, b] = [placeOf[rows[entry]], placeOf[columns[entry]]];
      this.#entryColumn[entry] = Math.min(a, b);
      this.#entryIndex[entry] = a === b ? -1 : indexOf(below[Math.min(a, b)], Math.max(a, b));
    }
  }

  /** How many entries below the diagonal are not 0, or became so. */
  get fill(): number {
    return this.#below.reduce((sum, places) => sum + places.length, 0);
  }

  /**
   * @param values one an entry
   * @returns false where the matrix is not positive definite; nothing can be solved then
   */
  factor(values: ArrayLike<number>): boolean {
    this.#diagonal.fill(0);
    for (const column of this.#lower) column.fill(0);
    for (let entry = 0; entry < this.#entryColumn.length; entry += 1) {
      const [column, index] = [this.#entryColumn[entry], this.#entryIndex[entry]];
      if (index < 0) this.#diagonal[column] += values[entry];
      else this.#lower[column][index] += values[entry];
    }
    const before = this.#diagonal.slice();
    for (let place = 0; place < this.#size; place += 1) {
      const pivot = this.#diagonal[place];
      if (!(pivot > 1e-12 * before[place])) return false;
      const [below, lower] = [this.#below[place], this.#lower[place]];
      for (let first = 0; first < below.length; first += 1) {
        const share = lower[first] / pivot;
        const column = below[first];
        this.#diagonal[column] -= share * lower[first];
        this.#takeOff(column, { below, lower, after: first + 1 }, share);
      }
      for (let index = 0; index < lower.length; index += 1) lower[index] /= pivot;
    }
    return true;
  }

  /** Takes a column, times a share, off what stands below in another: both ascend, and the other has all of its places. */
  #takeOff(
    column: number,
    { below, lower, after }: { below: Int32Array; lower: Float64Array; after: number },
    share: number,
  ): void {
    const [places, values] = [this.#below[column], this.#lower[column]];
    for (let index = after, at = 0; index < below.length; index += 1) {
      while (places[at] < below[index]) at += 1;
      values[at] -= share * lower[index];
    }
  }

  /** The solution for a right-hand side, which stays as it is. */
  solve(right: ArrayLike<number>): Float64Array {
    const solved = Float64Array.from(this.#order, (row) => right[row]);
    for (let place = 0; place < this.#size; place += 1)
      for (const [index, below] of this.#below[place].entries())
        solved[below] -= this.#lower[place][index] * solved[place];
    for (let place = this.#size - 1; place >= 0; place -= 1) {
      solved[place] /= this.#diagonal[place];
      for (const [index, below] of this.#below[place].entries())
        solved[place] -= this.#lower[place][index] * solved[below];
    }
    const inRows = new Float64Array(this.#size);
    for (const [place, row] of this.#order.entries()) inRows[row] = solved[place];
    return inRows;
  }

  /** The diagonal of the inverse, and of the other places of it those in which the matrix has an entry, one an entry. */
  inverse(): { diagonal: Float64Array; entries: Float64Array } {
    const inverted = this.#lower.map((column) => new Float64Array(column.length));
    const onDiagonal = new Float64Array(this.#size);
    for (let place = this.#size - 1; place >= 0; place -= 1) {
      const [below, lower, into] = [this.#below[place], this.#lower[place], inverted[place]];
      // Each pair of rows below: what the inverse has there goes to both. All rows of `below` that come later stand in each one's column.
      for (let first = 0; first < below.length; first += 1) {
        const [places, values] = [this.#below[below[first]], inverted[below[first]]];
        into[first] -= lower[first] * onDiagonal[below[first]];
        for (let second = first + 1, at = 0; second < below.length; second += 1) {
          while (places[at] < below[second]) at += 1;
          into[first] -= lower[second] * values[at];
          into[second] -= lower[first] * values[at];
        }
      }
      let sum = 1 / this.#diagonal[place];
      for (let index = 0; index < below.length; index += 1) sum -= lower[index] * into[index];
      onDiagonal[place] = sum;
    }
    const diagonal = new Float64Array(this.#size);
    for (const [place, row] of this.#order.entries()) diagonal[row] = onDiagonal[place];
    const entries = Float64Array.from(this.#entryColumn, (column, entry) =>
      this.#entryIndex[entry] < 0 ? onDiagonal[column] : inverted[column][this.#entryIndex[entry]],
    );
    return { diagonal, entries };
  }
}

/** The order in which rows go, always one that meets fewest others, and what each column of L then has below its diagonal. */
function eliminated(size: number, rows: Int32Array, columns: Int32Array): { order: Int32Array; below: Int32Array[] } {
  const met: Set<number>[] = Array.from({ length: size }, () => new Set());
  for (let entry = 0; entry < rows.length; entry += 1) {
    if (rows[entry] === columns[entry]) continue;
    met[rows[entry]].add(columns[entry]);
    met[columns[entry]].add(rows[entry]);
  }
  const order = new Int32Array(size);
  const placeOf = new Int32Array(size).fill(-1);
  const meets: number[][] = [];
  // Rows by how many others they meet; one may stand in several lists, and counts in the one of its number.
  const byCount: number[][] = Array.from({ length: size + 1 }, () => []);
  for (let row = size - 1; row >= 0; row -= 1) byCount[met[row].size].push(row);
  let fewest = 0;
  for (let place = 0; place < size; place += 1) {
    let row = -1;
    while (row < 0) {
      const next = byCount[fewest].pop();
      if (next === undefined) fewest += 1;
      else if (placeOf[next] < 0 && met[next].size === fewest) row = next;
    }
    order[place] = row;
    placeOf[row] = place;
    const others = [...met[row]];
    meets.push(others);
    for (const other of others) {
      met[other].delete(row);
      for (const third of others) if (third !== other) met[other].add(third);
      byCount[met[other].size].push(other);
      fewest = Math.min(fewest, met[other].size);
    }
    met[row].clear();
  }
  return { order, below: meets.map((others) => Int32Array.from(others, (other) => placeOf[other]).sort()) };
}

/** Where in an ascending list a number stands; it does. */
function indexOf(ascending: Int32Array, wanted: number): number {
  let [low, high] = [0, ascending.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (ascending[middle] < wanted) low = middle + 1;
    else high = middle;
  }
  return low;
}
