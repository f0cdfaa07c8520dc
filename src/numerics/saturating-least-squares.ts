import { solveSymmetric } from './solve-symmetric.ts';

/**
 * Weighted least squares of a curve that saturates, y = Σ besideᵢ·columnᵢ + amplitude·(1 − exp(−rate·x)), at one rate after
 * another: everything but the rate is linear and solved for.
 *
 * For rises that level off. With `lineMinimum` over the logarithm of the rate, no start of the amplitude is wanted, and the
 * trap of flat valleys far from the solution is avoided. Memory is made once; each `solve` writes over what the one before
 * found.
 *
 * Source: variable projection, textbook. Accuracy: the certified values of NIST StRD Misra1a and BoxBOD to eight digits from
 * both starts.
 *
 * @example
 * const curve = new SaturatingLeastSquares([1, 2, 3], [0.6321, 0.8647, 0.9502], []);
 * curve.solve(1);
 * curve.coefficients[0] // 1.000003
 */
export class SaturatingLeastSquares {
  /** Of the columns beside, then the amplitude. */
  readonly coefficients: Float64Array;
  /** Weighted sum of squared residuals. */
  misfit = Number.POSITIVE_INFINITY;
  /** The columns beside, then the saturating one at the rate solved for last. */
  readonly columns: readonly ArrayLike<number>[];
  readonly #x: ArrayLike<number>;
  readonly #y: ArrayLike<number>;
  readonly #weights: ArrayLike<number>;
  readonly #bent: Float64Array;
  readonly #products: Float64Array;
  readonly #right: Float64Array;
  readonly #matrix: Float64Array;
  readonly #solved: Float64Array;

  /**
   * @param x @param y as many of each
   * @param beside columns that stand beside the saturating one, such as all ones, or x itself
   * @param weights one over the variances; all 1 where left out
   */
  constructor(
    x: ArrayLike<number>,
    y: ArrayLike<number>,
    beside: readonly ArrayLike<number>[],
    weights: ArrayLike<number> = new Float64Array(x.length).fill(1),
  ) {
    this.#x = x;
    this.#y = y;
    this.#weights = weights;
    this.#bent = new Float64Array(x.length);
    this.columns = [...beside, this.#bent];
    const count = this.columns.length;
    this.coefficients = new Float64Array(count);
    this.#products = new Float64Array(count * count);
    this.#right = new Float64Array(count);
    this.#matrix = new Float64Array(count * count);
    this.#solved = new Float64Array(count);
    for (let column = 0; column < count - 1; column += 1) this.#multiply(column);
  }

  /** @returns false where the columns tell nothing apart; the misfit is then infinite */
  solve(rate: number): boolean {
    const { columns, coefficients } = this;
    const x = this.#x;
    const y = this.#y;
    const weights = this.#weights;
    const bent = this.#bent;
    for (let i = 0; i < bent.length; i += 1) bent[i] = -Math.expm1(-rate * x[i]);
    this.#multiply(columns.length - 1);
    coefficients.set(this.#right);
    this.#matrix.set(this.#products);
    this.misfit = Number.POSITIVE_INFINITY;
    if (!solveSymmetric(this.#matrix, coefficients)) return false;
    let misfit = 0;
    for (let i = 0; i < bent.length; i += 1) {
      let residual = y[i];
      for (let column = 0; column < columns.length; column += 1) residual -= coefficients[column] * columns[column][i];
      misfit += weights[i] * residual * residual;
    }
    this.misfit = misfit;
    return true;
  }

  /** Variance of a sum of coefficients, the rate held; each weighed as `shares` says. NaN where there is none. */
  variance(shares: ArrayLike<number>): number {
    const solved = this.#solved;
    solved.set(shares);
    this.#matrix.set(this.#products);
    if (!solveSymmetric(this.#matrix, solved)) return Number.NaN;
    let variance = 0;
    for (let column = 0; column < solved.length; column += 1) variance += shares[column] * solved[column];
    return variance;
  }

  /** The products of a column with all others and with y. */
  #multiply(column: number): void {
    const count = this.columns.length;
    const own = this.columns[column];
    const y = this.#y;
    const weights = this.#weights;
    for (let other = 0; other < count; other += 1) {
      const beside = this.columns[other];
      let sum = 0;
      for (let i = 0; i < own.length; i += 1) sum += weights[i] * own[i] * beside[i];
      this.#products[column * count + other] = sum;
      this.#products[other * count + column] = sum;
    }
    let sum = 0;
    for (let i = 0; i < own.length; i += 1) sum += weights[i] * own[i] * y[i];
    this.#right[column] = sum;
  }
}
