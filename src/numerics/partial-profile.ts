/** Columns that may take part at once. */
const mostColumns = 5;
/** So near to a combination of the others [ratio], a column tells nothing of its own. */
const singular = 1e-9;

/**
 * The profile of a sum of squares over the coefficient k ≥ 0 of one column, while a given set of others takes part with
 * coefficients within bounds of their own.
 *
 * For asking what else could explain the data: the least over all sets at a k is the exact least sum of squares with every
 * coefficient at 0 or above. A coefficient that stands at its upper bound is in no set: there the least is too high. One
 * object serves many sets: each `solve` writes over what the one before found.
 *
 * Over `low` ≤ k ≤ `high` the set's coefficients lie within their bounds, and there
 * misfit(k) = `least` + `curvature`·(k − `centre`)² and coefficientⱼ(k) = `offsets`[j] − k·`slopes`[j].
 *
 * Source: least squares by partition (Frisch–Waugh–Lovell), textbook.
 *
 * @example
 * const profile = new PartialProfile(2, Float64Array.of(14, 7, 7, 7));
 * profile.solve([], []);
 * [profile.centre, profile.least] // [1, 7]
 */
export class PartialProfile {
  low = 0;
  high = 0;
  centre = 0;
  least = 0;
  curvature = 0;
  readonly offsets = new Float64Array(mostColumns);
  readonly slopes = new Float64Array(mostColumns);
  readonly #size: number;
  readonly #products: Float64Array;
  readonly #factor = new Float64Array(mostColumns * mostColumns);
  readonly #yParts = new Float64Array(mostColumns);
  readonly #xParts = new Float64Array(mostColumns);
  /** The columns whose rows of the factor are made, and what of the products of y and x is left after each. */
  readonly #made = new Int32Array(mostColumns);
  #madeCount = 0;
  readonly #leasts = new Float64Array(mostColumns);
  readonly #joints = new Float64Array(mostColumns);
  readonly #curvatures = new Float64Array(mostColumns);

  /**
   * @param size how many columns the table has
   * @param products of columns with each other, row by row: first y, then the profiled column, then the further ones; each
   *   freed of its mean where a constant takes part; after a change of them `forget` is due
   */
  constructor(size: number, products: Float64Array) {
    this.#size = size;
    this.#products = products;
  }

  /** To be called when products have changed: until then, what begins like the set before is not factored anew. */
  forget(): void {
    this.#madeCount = 0;
  }

  /**
   * @param places the columns that take part, at most five, as places in the table from 2
   * @param bounds the most that the coefficient of each column of the table may be, by its place
   * @param floors the least, by its place; 0 where left out
   * @returns false where the coefficients lie within their bounds for no k ≥ 0, or where the columns tell nothing apart
   */
  solve(places: readonly number[], bounds: ArrayLike<number>, floors?: ArrayLike<number>): boolean {
    const products = this.#products;
    const size = this.#size;
    const factor = this.#factor;
    const yParts = this.#yParts;
    const xParts = this.#xParts;
    const made = this.#made;
    const count = places.length;
    let kept = 0;
    while (kept < count && kept < this.#madeCount && made[kept] === places[kept]) kept += 1;
    // Cholesky's factor of the columns' products, and y and x freed of the columns, in its coordinates.
    let least = kept === 0 ? products[0] : this.#leasts[kept - 1];
    let joint = kept === 0 ? products[1] : this.#joints[kept - 1];
    let curvature = kept === 0 ? products[size + 1] : this.#curvatures[kept - 1];
    this.#madeCount = kept;
    for (let row = kept; row < count; row += 1) {
      const at = places[row] * size;
      let y = products[at];
      let x = products[at + 1];
      for (let column = 0; column < row; column += 1) {
        let sum = products[at + places[column]];
        for (let k = 0; k < column; k += 1) sum -= factor[row * mostColumns + k] * factor[column * mostColumns + k];
        const element = sum / factor[column * mostColumns + column];
        factor[row * mostColumns + column] = element;
        y -= element * yParts[column];
        x -= element * xParts[column];
      }
      let square = products[at + places[row]];
      const whole = square;
      for (let k = 0; k < row; k += 1) square -= factor[row * mostColumns + k] ** 2;
      if (!(square > singular * whole)) return false;
      const root = Math.sqrt(square);
      factor[row * mostColumns + row] = root;
      y /= root;
      x /= root;
      yParts[row] = y;
      xParts[row] = x;
      least -= y * y;
      joint -= y * x;
      curvature -= x * x;
      made[row] = places[row];
      this.#leasts[row] = least;
      this.#joints[row] = joint;
      this.#curvatures[row] = curvature;
      this.#madeCount = row + 1;
    }
    if (!(curvature > singular * products[size + 1])) return false;
    this.low = 0;
    this.high = Number.POSITIVE_INFINITY;
    for (let row = count - 1; row >= 0; row -= 1) {
      let offset = yParts[row];
      let slope = xParts[row];
      for (let k = row + 1; k < count; k += 1) {
        offset -= factor[k * mostColumns + row] * this.offsets[k];
        slope -= factor[k * mostColumns + row] * this.slopes[k];
      }
      const root = factor[row * mostColumns + row];
      this.offsets[row] = offset / root;
      this.slopes[row] = slope / root;
      if (!this.narrow(offset / root, slope / root, floors?.[places[row]] ?? 0, bounds[places[row]])) return false;
    }
    this.centre = joint / curvature;
    this.curvature = curvature;
    this.least = Math.max(0, least - this.centre * joint);
    return true;
  }

  /** The misfit at the best k within the set's range. */
  get leastWithin(): number {
    const at = Math.min(this.high, Math.max(this.low, this.centre));
    return this.least + this.curvature * (at - this.centre) ** 2;
  }

  /** Narrows the range to floor ≤ offset − k·slope ≤ bound; false where nothing is left of it. */
  narrow(offset: number, slope: number, floor = 0, bound = Number.POSITIVE_INFINITY): boolean {
    if (slope > 0) {
      this.high = Math.min(this.high, (offset - floor) / slope);
      this.low = Math.max(this.low, (offset - bound) / slope);
    } else if (slope < 0) {
      this.low = Math.max(this.low, (offset - floor) / slope);
      this.high = Math.min(this.high, (offset - bound) / slope);
    } else if (offset < floor || offset > bound) return false;
    return this.low <= this.high;
  }
}
