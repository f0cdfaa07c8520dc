/** Products of columns with each other, row by row: of y, of the profiled column x, then of each further column. */
export interface ProductTable {
  readonly size: number;
  readonly products: Float64Array;
}

/** A column of the table that may take part with a coefficient from 0 up to `most`. */
export interface BoundedColumn {
  /** Its place in the table, from 2. */
  readonly place: number;
  readonly most: number;
}

/**
 * A stretch of the profile of the sum of squares over the coefficient of x: over it exactly these columns take part.
 *
 * misfit(k) = least + curvature·(k − centre)² for low ≤ k ≤ high; coefficientⱼ(k) = offsets[j] − k·slopes[j].
 */
export interface ProfilePiece {
  readonly low: number;
  readonly high: number;
  readonly centre: number;
  readonly least: number;
  readonly curvature: number;
  readonly offsets: readonly number[];
  readonly slopes: readonly number[];
}

/** So near to a combination of the others [ratio], a column tells nothing of its own. */
const singular = 1e-9;

/**
 * The profile of the sum of squares over the coefficient k ≥ 0 of one column, while a given set of others takes part.
 *
 * For asking what else could explain the data: the least of all sets' pieces at a k is the exact least sum of squares with
 * every coefficient within its bounds.
 *
 * @param table products of y, x and the columns, each freed of its mean where a constant takes part
 * @param columns at most three
 * @returns undefined where the set's coefficients lie within their bounds for no k ≥ 0, or where its columns or x tell
 *   nothing apart
 *
 * Source: least squares by partition (Frisch–Waugh–Lovell), textbook.
 *
 * @example profilePiece({ size: 2, products: Float64Array.of(14, 7, 7, 7) }, []) // centre 1, least 7
 */
export function profilePiece(
  { size, products }: ProductTable,
  columns: readonly BoundedColumn[],
): ProfilePiece | undefined {
  const count = columns.length;
  const yy = products[0];
  const yx = products[1];
  const xx = products[size + 1];
  // Cholesky's factor of the columns' products, and y and x freed of the columns, in its coordinates.
  const factor = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  const yParts = [0, 0, 0];
  const xParts = [0, 0, 0];
  let least = yy;
  let joint = yx;
  let curvature = xx;
  for (let row = 0; row < count; row += 1) {
    const at = columns[row].place * size;
    let y = products[at];
    let x = products[at + 1];
    for (let column = 0; column <= row; column += 1) {
      let sum = products[at + columns[column].place];
      for (let k = 0; k < column; k += 1) sum -= factor[row * 3 + k] * factor[column * 3 + k];
      if (column < row) {
        const element = sum / factor[column * 3 + column];
        factor[row * 3 + column] = element;
        y -= element * yParts[column];
        x -= element * xParts[column];
      } else {
        if (!(sum > singular * products[at + columns[row].place])) return undefined;
        const root = Math.sqrt(sum);
        factor[row * 3 + row] = root;
        yParts[row] = y / root;
        xParts[row] = x / root;
      }
    }
    least -= yParts[row] * yParts[row];
    joint -= yParts[row] * xParts[row];
    curvature -= xParts[row] * xParts[row];
  }
  if (!(curvature > singular * xx)) return undefined;
  let low = 0;
  let high = Number.POSITIVE_INFINITY;
  const offsets: number[] = [];
  const slopes: number[] = [];
  for (let row = count - 1; row >= 0; row -= 1) {
    let offset = yParts[row];
    let slope = xParts[row];
    for (let k = row + 1; k < count; k += 1) {
      offset -= factor[k * 3 + row] * offsets[k];
      slope -= factor[k * 3 + row] * slopes[k];
    }
    offset /= factor[row * 3 + row];
    slope /= factor[row * 3 + row];
    offsets[row] = offset;
    slopes[row] = slope;
    // 0 ≤ offset − k·slope ≤ most.
    const { most } = columns[row];
    if (slope > 0) {
      high = Math.min(high, offset / slope);
      low = Math.max(low, (offset - most) / slope);
    } else if (slope < 0) {
      low = Math.max(low, offset / slope);
      high = Math.min(high, (offset - most) / slope);
    } else if (offset < 0 || offset > most) return undefined;
  }
  if (!(low <= high)) return undefined;
  const centre = joint / curvature;
  return { low, high, centre, least: Math.max(0, least - centre * joint), curvature, offsets, slopes };
}

/** The coefficient of x within a piece, and within further bounds, at which the misfit is least; undefined where there is none. */
export function bestWithin(piece: ProfilePiece, low = 0, high = Number.POSITIVE_INFINITY): number | undefined {
  const from = Math.max(piece.low, low);
  const to = Math.min(piece.high, high);
  return from <= to ? Math.min(to, Math.max(from, piece.centre)) : undefined;
}

/** The misfit of a piece at a coefficient of x. */
export function misfitAt({ least, curvature, centre }: ProfilePiece, coefficient: number): number {
  return least + curvature * (coefficient - centre) ** 2;
}
