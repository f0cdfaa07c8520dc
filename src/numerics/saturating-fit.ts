import { lineMinimum } from './line-minimum.ts';
import { solveSymmetric } from './solve-symmetric.ts';

/** What a saturating curve is fitted with. */
export interface SaturatingFitOptions {
  /** Columns that stand beside the saturating one, such as all ones, or x itself; none where left out. */
  readonly beside?: readonly ArrayLike<number>[];
  /** Weights of the points, one over their variances; all 1 where left out. */
  readonly weights?: ArrayLike<number>;
  /** Where the search for the rate begins [1 / unit of x], above 0. */
  readonly startRate: number;
}

/** y = Σ besideᵢ·columnᵢ + amplitude·(1 − exp(−rate·x)). */
export interface SaturatingFit {
  readonly amplitude: number;
  readonly rate: number;
  readonly beside: readonly number[];
  /** Weighted sum of squared residuals. */
  readonly misfit: number;
  /** √(misfit / degrees of freedom). */
  readonly residualDeviation: number;
  /** Standard errors, from the curve's slopes at the solution. */
  readonly amplitudeError: number;
  readonly rateError: number;
}

/**
 * Fits a curve that saturates, with whatever is linear beside it, by weighted least squares.
 *
 * For rises that level off. Everything but the rate is linear and solved for at each rate that is tried, so that no start
 * of the amplitude is wanted and the trap of flat valleys far from the solution is avoided.
 *
 * @param x @param y as many of each, at least two more than `beside` has columns
 * @returns undefined where no rate is best: y does not saturate within x, or the columns tell nothing apart
 *
 * Source: variable projection, textbook. Accuracy: the certified values of NIST StRD Misra1a and BoxBOD to better than
 * eight digits from both starts.
 *
 * @example saturatingFit([1, 2, 3, 4], [0.6321, 0.8647, 0.9502, 0.9817], { startRate: 0.1 })?.rate // 0.9999583
 */
export function saturatingFit(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  { beside = [], weights, startRate }: SaturatingFitOptions,
): SaturatingFit | undefined {
  const count = x.length;
  const bent = new Float64Array(count);
  const columns = [...beside, bent];
  const solvedAt = (logRate: number) => {
    const rate = Math.exp(logRate);
    for (let i = 0; i < count; i += 1) bent[i] = -Math.expm1(-rate * x[i]);
    return leastSquares(columns, y, weights);
  };
  const best = lineMinimum(
    (logRate) => solvedAt(logRate)?.misfit ?? Number.POSITIVE_INFINITY,
    Math.log(startRate),
    0.5,
  );
  const solved = best === undefined ? undefined : solvedAt(best.at);
  if (best === undefined || solved === undefined) return undefined;
  const rate = Math.exp(best.at);
  const amplitude = solved.coefficients[beside.length];
  const residualDeviation = Math.sqrt(solved.misfit / (count - columns.length - 1));
  const slopes = Float64Array.from(bent, (_, i) => amplitude * x[i] * Math.exp(-rate * x[i]));
  const jacobian = [...columns, slopes];
  const errorOf = (place: number) => residualDeviation * Math.sqrt(inverseDiagonal(jacobian, weights, place));
  return {
    amplitude,
    rate,
    beside: [...solved.coefficients.subarray(0, beside.length)],
    misfit: solved.misfit,
    residualDeviation,
    amplitudeError: errorOf(beside.length),
    rateError: errorOf(beside.length + 1),
  };
}

function leastSquares(
  columns: readonly ArrayLike<number>[],
  y: ArrayLike<number>,
  weights: ArrayLike<number> | undefined,
): { coefficients: Float64Array; misfit: number } | undefined {
  const coefficients = Float64Array.from(columns, (column) => product(column, y, weights));
  if (!solveSymmetric(gram(columns, weights), coefficients)) return undefined;
  let misfit = 0;
  for (let i = 0; i < y.length; i += 1) {
    let residual = y[i];
    for (const [place, column] of columns.entries()) residual -= coefficients[place] * column[i];
    misfit += (weights?.[i] ?? 1) * residual * residual;
  }
  return { coefficients, misfit };
}

/** A diagonal element of the inverse of the columns' matrix of products; NaN where there is none. */
function inverseDiagonal(
  columns: readonly ArrayLike<number>[],
  weights: ArrayLike<number> | undefined,
  place: number,
): number {
  const unit = new Float64Array(columns.length);
  unit[place] = 1;
  return solveSymmetric(gram(columns, weights), unit) ? unit[place] : Number.NaN;
}

function gram(columns: readonly ArrayLike<number>[], weights: ArrayLike<number> | undefined): Float64Array {
  return Float64Array.from(columns.flatMap((a) => columns.map((b) => product(a, b, weights))));
}

function product(a: ArrayLike<number>, b: ArrayLike<number>, weights: ArrayLike<number> | undefined): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += (weights?.[i] ?? 1) * a[i] * b[i];
  return sum;
}
