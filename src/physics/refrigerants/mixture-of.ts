import type { Fluid } from '../equations/fluid.ts';
import type { Mixture } from '../equations/mixture.ts';
import { GAS_CONSTANT_J_PER_MOL_K } from '../gas-constant.ts';
import { mixturePair, publishedPair } from './mixture-pair.ts';

/**
 * A refrigerant: a pure fluid or a blend, with the limits of its equations.
 *
 * How good the equations themselves are, by their papers (from memory): pure fluids some 0.1 % in vapour pressure and liquid
 * density; blends of, R-134a and R-143a 0.1 % in density and 0.5 % in bubble pressure (`lemmon-jacobsen-2004`);
 * blends with R-1234yf or R-1234ze(E) about 1 % in bubble pressure; pairs with a departure of none less well known. 0.5 % is
 * 0.2 K for R-410A.
 */
export interface Refrigerant extends Mixture {
  readonly designation: string;
  /** Mass fractions of the components, adding up to 1. */
  readonly massFractions: readonly number[];
  /** Pairs of components whose interaction this project does not have; such a blend may be off by tens of per cent. */
  readonly estimatedPairs: readonly string[];
  /** The warmest of the components' triple points, and the lowest of their upper limits. */
  readonly lowestK: number;
  readonly highestK: number;
  readonly highestPa: number;
}

/**
 * A mixture of fluids.
 *
 * @param components different ones, at least one
 * @param massFractions one for each, above 0, adding up to 1
 *
 * Source: mole fractions from molar masses; the gas constant of a pure fluid is its paper's, of a blend `codata-2018`, as
 * CoolProp has it.
 */
export function mixtureOf(
  designation: string,
  components: readonly Fluid[],
  massFractions: readonly number[],
): Refrigerant {
  const amounts = components.map(({ molarMassKgPerMol }, i) => massFractions[i] / molarMassKgPerMol);
  const molesPerKg = amounts.reduce((sum, amount) => sum + amount, 0);
  const pure = components.length === 1;
  const couples = components.flatMap((_, i) => components.slice(i + 1).map((__, k) => [i, i + 1 + k] as const));
  return {
    designation,
    components,
    massFractions,
    moleFractions: amounts.map((amount) => amount / molesPerKg),
    molarMassKgPerMol: pure ? components[0].molarMassKgPerMol : 1 / molesPerKg,
    gasConstantJPerMolK: pure ? components[0].gasConstantJPerMolK : GAS_CONSTANT_J_PER_MOL_K,
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
