import { DryholdError } from '../../errors.ts';
import type { Fluid } from '../equations/fluid.ts';
import type { Mixture } from '../equations/mixture.ts';
import { fluids } from '../fluids/fluids.ts';
import { GAS_CONSTANT_J_PER_MOL_K } from '../gas-constant.ts';
import { mixturePair, publishedPair } from './mixture-pair.ts';

/** A refrigerant: a pure fluid or a blend, with the limits of its equations. */
export interface Refrigerant extends Mixture {
  readonly designation: string;
  /** Mass fractions of the components, adding up to 1. */
  readonly massFractions: readonly number[];
  /** Pairs of components without published interaction; properties of such a blend are estimates of unknown accuracy. */
  readonly estimatedPairs: readonly string[];
  /** The warmest of the components' triple points, and the lowest of their upper limits. */
  readonly lowestK: number;
  readonly highestK: number;
  readonly highestPa: number;
}

/** How far mass fractions may be from adding up to 1: rounding, no more. */
const SUM_TOLERANCE = 1e-6;

/**
 * A refrigerant from its components.
 *
 * For blends that `blends.ts` does not list.
 *
 * @param designation what the refrigerant is to be called
 * @param massFractions mass fraction of each component by its designation, above 0, together 1
 * @throws DryholdError `unknown-refrigerant` for a component without an equation of state; `out-of-range` for fractions
 *   that are not above 0 or do not add up to 1
 *
 * Source: mole fractions from molar masses; the gas constant of a pure fluid is its paper's, of a blend `codata-2018`. Accuracy: of saturation and densities see `saturationAtTemperature`; where
 * `estimatedPairs` is not empty, unknown.
 *
 * @example
 * composeRefrigerant('half and half', { 'R-32': 0.5, 'R-125': 0.5 }).molarMassKgPerMol // 0.072585
 */
export function composeRefrigerant(designation: string, massFractions: Readonly<Record<string, number>>): Refrigerant {
  const components = Object.keys(massFractions).map(fluidNamed);
  const fractions = Object.values(massFractions);
  const total = fractions.reduce((sum, fraction) => sum + fraction, 0);
  for (const [component, fraction] of Object.entries(massFractions)) {
    if (!(fraction > 0))
      throw new DryholdError('out-of-range', {
        quantity: `mass fraction of ${component} in ${designation}`,
        bound: 'above 0',
        received: fraction,
      });
  }
  if (!(Math.abs(total - 1) <= SUM_TOLERANCE))
    throw new DryholdError('out-of-range', {
      quantity: `sum of the mass fractions of ${designation}`,
      bound: '1',
      received: total,
    });
  const amounts = components.map(({ molarMassKgPerMol }, i) => fractions[i] / total / molarMassKgPerMol);
  const molesPerKg = amounts.reduce((sum, amount) => sum + amount, 0);
  const moleFractions = amounts.map((amount) => amount / molesPerKg);
  const couples = components.flatMap((_, i) => components.slice(i + 1).map((__, k) => [i, i + 1 + k] as const));
  return {
    designation,
    components,
    massFractions: fractions.map((fraction) => fraction / total),
    moleFractions,
    molarMassKgPerMol: components.length === 1 ? components[0].molarMassKgPerMol : 1 / molesPerKg,
    gasConstantJPerMolK: components.length === 1 ? components[0].gasConstantJPerMolK : GAS_CONSTANT_J_PER_MOL_K,
    pairs: couples.map(([i, j]) => mixturePair(components, i, j)),
    estimatedPairs: couples
      .map(([i, j]) => [components[i].designation, components[j].designation] as const)
      .filter(([a, b]) => publishedPair(a, b) === undefined)
      .map((pair) => pair.join(' with ')),
    lowestK: Math.max(...components.map(({ tripleK }) => tripleK)),
    highestK: Math.min(...components.map(({ highestK }) => highestK)),
    highestPa: Math.min(...components.map(({ highestPa }) => highestPa)),
  };
}

function fluidNamed(designation: string): Fluid {
  const fluid = fluids.find((known) => known.designation === designation);
  if (fluid !== undefined) return fluid;
  const known = fluids.map((one) => one.designation).join(', ');
  throw new DryholdError('unknown-refrigerant', { refrigerant: designation, known });
}
