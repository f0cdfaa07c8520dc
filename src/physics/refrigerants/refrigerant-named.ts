import { DryholdError } from '../../errors.ts';
import { refrigerantFluids } from '../fluids/fluids.ts';
import { blends } from './blends.ts';
import { composeRefrigerant } from './compose-refrigerant.ts';
import type { Refrigerant } from './mixture-of.ts';

/** ASHRAE 34 designations of every refrigerant with an equation of state: pure fluids, then blends. */
export const refrigerantDesignations: readonly string[] = [
  ...refrigerantFluids.map(({ designation }) => designation),
  ...Object.keys(blends),
];

const composed = new Map<string, Refrigerant>();

/**
 * A refrigerant by its designation.
 *
 * @param designation as ASHRAE 34 writes it: `R-410A`, `R-1234ze(E)`
 * @throws DryholdError `unknown-refrigerant` where there is no equation of state for it
 *
 * Source: `ashrae-34` for designations and compositions; for each equation its own reference.
 *
 * @example
 * refrigerantNamed('R-410A').molarMassKgPerMol // 0.072585
 */
export function refrigerantNamed(designation: string): Refrigerant {
  const known = composed.get(designation);
  if (known !== undefined) return known;
  if (!refrigerantDesignations.includes(designation)) {
    throw new DryholdError('unknown-refrigerant', { refrigerant: designation, known: refrigerantDesignations });
  }
  const refrigerant = composeRefrigerant(designation, blends[designation] ?? { [designation]: 1 });
  composed.set(designation, refrigerant);
  return refrigerant;
}
