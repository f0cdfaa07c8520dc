import type { Claim } from '../truth/claim.ts';
import { accusationClaims } from './accusation-claims.ts';
import { conservationClaims } from './conservation-claims.ts';
import { honestClaims } from './honest-claims.ts';
import { judgedCylinders, judgedShops } from './judged-shop.ts';
import { plantedClaims } from './planted-claims.ts';

/**
 * What the ledger says of drawn shops, held against what was done in them.
 *
 * @param cylinders so many at least, in shops of some hundred
 */
export function accountClaims(seed: number, cylinders: number): Claim[] {
  const shops = judgedShops(seed, cylinders);
  const judged = judgedCylinders(seed, shops);
  return [
    ...honestClaims(judged),
    ...plantedClaims(judged),
    ...accusationClaims(judged),
    ...conservationClaims(seed, shops),
  ];
}
