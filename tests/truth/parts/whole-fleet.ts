import { fleetClaims } from '../whole-fleet/fleet-claims.ts';
import { withJudgedFleet } from '../whole-fleet/judged-fleet.ts';
import { part } from './part.ts';

/** A fleet that is simulated, written as a bundle, taken in and judged by the product's own steps, and held against its truth. */
export const wholeFleet = part({
  name: 'whole-fleet',
  title: 'A whole fleet',
  sizes: { small: { jobs: 300 }, full: { jobs: 12_000 } },
  fullS: 420,
  run: ({ jobs }, seed, onProgress) =>
    withJudgedFleet({ jobs, seed, mishaps: true }, onProgress, async (fleet) => ({
      drawn:
        `${jobs} jobs of a year of an invented shop, written as a bundle, taken in and judged; ` +
        `${jobs - fleet.ownJobs.length} of them with a log that was copied or in which something went wrong`,
      ...(await fleetClaims(fleet)),
    })),
});
