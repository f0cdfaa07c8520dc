import type { Fluid, HelmholtzTerms } from './fluid.ts';

/** How two components of a mixture act on each other; first and second are indices of components. */
export interface MixturePair {
  readonly first: number;
  readonly second: number;
  /** Of the cross term in the reducing temperature: β and 2βγ √(T_1 T_2) [K]. */
  readonly betaT: number;
  readonly crossK: number;
  /** Of the cross term in the reducing molar volume: β and 2βγ (v_1^⅓ + v_2^⅓)³/8 [m³/mol]. */
  readonly betaV: number;
  readonly crossM3PerMol: number;
  /** Factor of the departure term; 0 where there is none. */
  readonly factor: number;
  readonly departure: HelmholtzTerms;
}

/** Pure fluids mixed; one component is a pure fluid. */
export interface Mixture {
  readonly components: readonly Fluid[];
  /** Mole fractions of the components as composed, adding up to 1. */
  readonly moleFractions: readonly number[];
  readonly molarMassKgPerMol: number;
  readonly gasConstantJPerMolK: number;
  /** One for every two components. */
  readonly pairs: readonly MixturePair[];
}

/** The reducing point of a composition, and how each component moves it. */
export interface ReducingPoint {
  readonly reducingK: number;
  readonly reducingM3PerMol: number;
  /** n ∂(T_r)/∂n_i / T_r, and n ∂(1/ρ_r)/∂n_i ρ_r. */
  readonly temperatureShares: Float64Array;
  readonly volumeShares: Float64Array;
}

/**
 * The reducing temperature and molar volume of a composition.
 *
 * @param moleFractions one for each component, above 0
 *
 * Source: `kunz-wagner-2012`, reducing functions and their derivatives by amounts of substance.
 */
export function reducingPoint(mixture: Mixture, moleFractions: ArrayLike<number>): ReducingPoint {
  const { components, pairs } = mixture;
  const temperatureShares = new Float64Array(components.length);
  const volumeShares = new Float64Array(components.length);
  let reducingK = 0;
  let reducingM3PerMol = 0;
  for (let i = 0; i < components.length; i += 1) {
    const x = moleFractions[i];
    reducingK += x * x * components[i].reducingK;
    reducingM3PerMol += (x * x) / components[i].reducingMolPerM3;
    temperatureShares[i] = 2 * x * components[i].reducingK;
    volumeShares[i] = (2 * x) / components[i].reducingMolPerM3;
  }
  for (const { first, second, betaT, crossK, betaV, crossM3PerMol } of pairs) {
    const x = moleFractions[first];
    const y = moleFractions[second];
    reducingK += cross(x, y, betaT, crossK, temperatureShares, first, second);
    reducingM3PerMol += cross(x, y, betaV, crossM3PerMol, volumeShares, first, second);
  }
  share(temperatureShares, reducingK, moleFractions);
  share(volumeShares, reducingM3PerMol, moleFractions);
  return { reducingK, reducingM3PerMol, temperatureShares, volumeShares };
}

/** One cross term g x y (x + y)/(β² x + y); its derivatives by x and y are added to `slopes`. */
function cross(
  x: number,
  y: number,
  beta: number,
  g: number,
  slopes: Float64Array,
  first: number,
  second: number,
): number {
  const weighted = beta * beta * x + y;
  const ratio = (x + y) / weighted;
  slopes[first] += g * y * (ratio + (x * (1 - beta * beta * ratio)) / weighted);
  slopes[second] += g * x * (ratio + (y * (1 - ratio)) / weighted);
  return g * x * y * ratio;
}

/** Turns derivatives by mole fractions, taken as independent, into n ∂Y/∂n_i / Y. */
function share(slopes: Float64Array, value: number, moleFractions: ArrayLike<number>): void {
  let mean = 0;
  for (let i = 0; i < slopes.length; i += 1) mean += moleFractions[i] * slopes[i];
  for (let i = 0; i < slopes.length; i += 1) slopes[i] = (slopes[i] - mean) / value;
}
