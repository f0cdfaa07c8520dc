import { accountClaims } from '../../account-power/account-claims.ts';
import { part } from './part.ts';

/** How surely cylinder accounts tell what was stolen, mistyped or written elsewhere, and how rarely they accuse wrongly. */
export const accounts = part({
  name: 'accounts',
  title: 'Refrigerant accounts',
  sizes: { small: { cylinders: 2000 }, full: { cylinders: 20_000 } },
  fullS: 13,
  run({ cylinders }, seed, onProgress) {
    onProgress(`${cylinders} cylinders`);
    return { drawn: `${cylinders} cylinders or some more`, claims: accountClaims(seed, cylinders) };
  },
});
