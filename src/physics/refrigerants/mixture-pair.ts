import type { Fluid } from '../equations/fluid.ts';
import type { MixturePair } from '../equations/mixture.ts';
import { type BinaryPair, binaryPairs } from './binary-pairs.ts';

/** The published interaction of two fluids, whichever comes first; undefined where `binaryPairs` has none. */
export function publishedPair(a: string, b: string): BinaryPair | undefined {
  return binaryPairs.find(({ between: [one, other] }) => (one === a && other === b) || (one === b && other === a));
}

/**
 * How two components of a mixture act on each other.
 *
 * @param components of the mixture
 * @param i @param j indices of two of them
 * @returns the published interaction; where `binaryPairs` has none, the reducing point without parameters (β = γ = 1) and no departure
 *
 * Source: `kunz-wagner-2012`, reducing functions; `lemmon-jacobsen-2004` states ξ and ζ, which are the same reducing
 * functions with β = 1.
 */
export function mixturePair(components: readonly Fluid[], i: number, j: number): MixturePair {
  const published = publishedPair(components[i].designation, components[j].designation);
  const swapped = published !== undefined && published.between[0] !== components[i].designation;
  const [first, second] = swapped ? [j, i] : [i, j];
  const a = components[first];
  const b = components[second];
  const meanK = Math.sqrt(a.reducingK * b.reducingK);
  const meanM3PerMol = (Math.cbrt(1 / a.reducingMolPerM3) + Math.cbrt(1 / b.reducingMolPerM3)) ** 3 / 8;
  const { reducing = { betaT: 1, gammaT: 1, betaV: 1, gammaV: 1 }, departure = { power: [] } } = published ?? {};
  const factor = departure.power.length === 0 ? 0 : (published?.factor ?? 1);
  if ('xiK' in reducing) {
    const crossK = a.reducingK + b.reducingK + reducing.xiK;
    const crossM3PerMol = 1 / a.reducingMolPerM3 + 1 / b.reducingMolPerM3 + reducing.zetaM3PerMol;
    return { first, second, betaT: 1, crossK, betaV: 1, crossM3PerMol, factor, departure };
  }
  const { betaT, gammaT, betaV, gammaV } = reducing;
  const crossK = 2 * betaT * gammaT * meanK;
  const crossM3PerMol = 2 * betaV * gammaV * meanM3PerMol;
  return { first, second, betaT, crossK, betaV, crossM3PerMol, factor, departure };
}
