import { evacuationClaims } from '../whole-fleet/evacuation-claims.ts';
import { withJudgedFleet } from '../whole-fleet/judged-fleet.ts';
import { part } from './part.ts';

/** A fleet that is simulated, written as a bundle, taken in and judged by the product's own steps, and held against its truth. */
export const wholeFleet = part({
  name: 'whole-fleet',
  title: 'A whole fleet, from its files to its findings',
  sizes: { small: { jobs: 200 }, full: { jobs: 5000 } },
  fullS: 500,
  run: ({ jobs }, seed, onProgress) =>
    withJudgedFleet({ jobs, seed }, onProgress, async (fleet) => {
      const evacuations = evacuationClaims(fleet.jobs);
      return {
        drawn: `${jobs} jobs of a year of an invented shop, written as a bundle, taken in and judged`,
        claims: [...evacuations.claims],
        tables: [...evacuations.tables],
      };
    }),
});
