import { chanceClaims, ratioClaims } from '../../callback-power/forerunner-claims.ts';
import { riskClaims } from '../../callback-power/risk-claims.ts';
import { savingClaims } from '../../callback-power/saving-claims.ts';
import { visitClaims } from '../../callback-power/visit-claims.ts';
import { part } from './part.ts';

const kinds = {
  'hazard ratios': ratioClaims,
  'nothing foretells': chanceClaims,
  visits: visitClaims,
  'what would be saved': savingClaims,
  risks: riskClaims,
};

/** How well hazard ratios, forerunners and risks of callbacks are told. */
export const callbacks = part({
  name: 'callbacks',
  title: 'Callbacks',
  sizes: { small: { fleets: 4 }, full: { fleets: 200 } },
  fullS: 380,
  run({ fleets }, seed, onProgress) {
    return {
      drawn: `${fleets} fleets of each kind with hazards that are known, twelve people in each`,
      claims: Object.entries(kinds).flatMap(([kind, of]) => {
        onProgress(`${fleets} fleets of each kind: ${kind}`);
        return of(seed, fleets);
      }),
    };
  },
});
