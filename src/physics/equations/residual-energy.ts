import type { HelmholtzTerms } from './fluid.ts';

/** A residual Helmholtz energy and its reduced derivatives, each without dimension. */
export interface ResidualEnergy {
  /** α_r. */
  alpha: number;
  /** δ ∂α_r/∂δ. */
  alphaD: number;
  /** δ² ∂²α_r/∂δ². */
  alphaDD: number;
  /** τ ∂α_r/∂τ. */
  alphaT: number;
}

/**
 * Sums the terms of a residual Helmholtz energy.
 *
 * @param delta reduced density, above 0
 * @param tau reduced reciprocal temperature, above 0
 * @returns α_r and its reduced derivatives
 *
 * Source: the form is that of every equation in `fluids/` (see each one's reference). Accuracy: rounding alone.
 */
export function residualEnergy(terms: HelmholtzTerms, delta: number, tau: number): ResidualEnergy {
  const lnDelta = Math.log(delta);
  const lnTau = Math.log(tau);
  const square = delta * delta;
  /** δ^l by l; no damping where l is 0. */
  const dampings = [0, delta, square, square * delta, square * square, square * square * delta, square ** 3];
  const sum = { alpha: 0, alphaD: 0, alphaDD: 0, alphaT: 0 };
  // Indexed rather than destructured: this is where solving spends its time.
  for (const row of terms.power) {
    const l = row[3];
    const damping = dampings[l];
    const cooling = row.length === 5 ? tau ** row[4] : 0;
    const term = row[0] * Math.exp(row[2] * lnDelta + row[1] * lnTau - damping - cooling);
    const slope = row[2] - l * damping;
    sum.alpha += term;
    sum.alphaD += term * slope;
    sum.alphaDD += term * (slope * (slope - 1) - l * l * damping);
    sum.alphaT += term * (cooling === 0 ? row[1] : row[1] - (row[4] ?? 0) * cooling);
  }
  for (const row of terms.gaussian ?? []) {
    const [n, t, d, eta, beta, gamma, epsilon] = row;
    const fromEpsilon = delta - epsilon;
    const fromGamma = tau - gamma;
    const term = n * Math.exp(d * lnDelta + t * lnTau - eta * fromEpsilon * fromEpsilon - beta * fromGamma * fromGamma);
    const slope = d - 2 * eta * delta * fromEpsilon;
    sum.alpha += term;
    sum.alphaD += term * slope;
    sum.alphaDD += term * (slope * slope - d - 2 * eta * square);
    sum.alphaT += term * (t - 2 * beta * tau * fromGamma);
  }
  return sum;
}
