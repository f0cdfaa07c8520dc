/** Coefficients of a model that belong together, from `first` to before `end`. */
export interface Block {
  readonly first: number;
  readonly end: number;
}

/** What is needed of a penalised fit. */
interface PenalisedFit {
  readonly coefficients: Float64Array;
  /** Inverse of the penalised information, row by row. */
  readonly covariance: Float64Array;
}

/** Coefficients of a block differ by so much at first, and how much they do is looked for within these [logarithm of odds or hazards]. */
const firstSpread = 0.3;
const leastSpread = 0.02;
const mostSpread = 2;
const mostRounds = 30;
const smallChange = 0.01;

/**
 * Fits a model whose coefficients are drawn to 0 block by block, the more, the less those of a block differ.
 *
 * @param fitAt fits under penalties, from coefficients to begin with; undefined where that cannot be
 * @param blocks within which coefficients are alike
 * @param size how many coefficients there are
 * @param fixed penalties of the coefficients of no block; absent: none
 * @returns undefined where `fitAt` gives none
 *
 * Source: `schall-1991`.
 *
 * @example
 * // Two effects of 1 and −1, each known as well as ten measurements tell it: hardly drawn in.
 * const fitAt = (penalties) => ({ coefficients: Float64Array.from(penalties, (p, at) => (10 * (1 - 2 * at)) / (10 + p)), covariance: Float64Array.of(1 / (10 + penalties[0]), 0, 0, 1 / (10 + penalties[1])) });
 * fitWithSpreads(fitAt, [{ first: 0, end: 2 }], 2).coefficients[0].toFixed(2) // '0.90'
 */
export function fitWithSpreads<Fit extends PenalisedFit>(
  fitAt: (penalties: Float64Array, start: Float64Array) => Fit | undefined,
  blocks: readonly Block[],
  size: number,
  fixed: Float64Array = new Float64Array(size),
): (Fit & { readonly penalties: Float64Array }) | undefined {
  const penalties = fixed.slice();
  for (const { first, end } of blocks) penalties.fill(1 / firstSpread ** 2, first, end);
  let start: Float64Array = new Float64Array(size);
  for (let round = 1; ; round += 1) {
    const fit = fitAt(penalties, start);
    if (fit === undefined) return undefined;
    const next = blocks.map((block) => spreadOf(fit, penalties, block));
    const moved = blocks.reduce(
      (most, { first }, at) => Math.max(most, Math.abs(next[at] - 1 / Math.sqrt(penalties[first]))),
      0,
    );
    if (moved < smallChange || round === mostRounds) return { ...fit, penalties };
    for (const [at, { first, end }] of blocks.entries()) penalties.fill(1 / next[at] ** 2, first, end);
    start = fit.coefficients;
  }
}

/** The standard deviation under which a block's coefficients and their uncertainty are what they are. */
function spreadOf({ coefficients, covariance }: PenalisedFit, penalties: Float64Array, { first, end }: Block): number {
  let [squares, known] = [0, 0];
  for (let at = first; at < end; at += 1) {
    squares += coefficients[at] ** 2;
    known += 1 - penalties[at] * covariance[at * penalties.length + at];
  }
  return Math.min(mostSpread, Math.max(leastSpread, known > 1e-9 ? Math.sqrt(squares / known) : leastSpread));
}
