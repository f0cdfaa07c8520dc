import type { ReferenceKey } from '../../references.ts';

/** Power of the density in the exponent of a term; 0 for no exponential. */
export type DensityPower = 0 | 1 | 2 | 3 | 4 | 5 | 6;

/** One term n δ^d τ^t exp(−δ^l) exp(−τ^m) as [n, t, d, l, m]; without the first exponential where l is 0, the second where m is left out. */
export type PowerTerm =
  | readonly [n: number, t: number, d: number, l: DensityPower]
  | readonly [n: number, t: number, d: number, l: DensityPower, m: number];

/** One term n δ^d τ^t exp(−η(δ−ε)² − β(τ−γ)²). */
export type GaussianTerm = readonly [
  n: number,
  t: number,
  d: number,
  eta: number,
  beta: number,
  gamma: number,
  epsilon: number,
];

/** A published residual Helmholtz energy, α_r(δ, τ), as the sum of its terms. */
export interface HelmholtzTerms {
  readonly power: readonly PowerTerm[];
  readonly gaussian?: readonly GaussianTerm[];
}

/**
 * A pure fluid's equation of state and its limits; δ = ρ / reducing density, τ = reducing temperature / T.
 *
 * The figures are those of the papers as the data files of the open-source library CoolProp (MIT licence, commit ea27c6394887)
 * print them; the papers were not at hand. Corrected from memory: the limits of R-143a (450 K, 50 MPa) and nitrogen (1000 K) by
 * their papers' titles, the critical point of R-1234ze(E). The upper pressure of R-1234ze(E), 15 MPa, is an older equation's
 * and kept as the more careful one.
 */
export interface Fluid extends HelmholtzTerms {
  /** ASHRAE 34 designation. */
  readonly designation: string;
  readonly reference: ReferenceKey;
  readonly molarMassKgPerMol: number;
  /** Gas constant that the paper used [J/(mol K)]. */
  readonly gasConstantJPerMolK: number;
  readonly reducingK: number;
  readonly reducingMolPerM3: number;
  readonly criticalK: number;
  readonly criticalPa: number;
  readonly tripleK: number;
  readonly highestK: number;
  readonly highestPa: number;
}
