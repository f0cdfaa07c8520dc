import { overTimeClaims } from '../../fleet/statistics/over-time-power.ts';
import { changeClaims } from '../../fleet-power/change-claims.ts';
import { alike, jobMix, onePerson, sharedGear } from '../../fleet-power/fleet-claims.ts';
import { part } from './part.ts';

const kinds = { 'alike people': alike, 'one who differs': onePerson, 'shared gear': sharedGear, 'job mix': jobMix };

/** How rarely somebody is said to stand out, or to have changed, who does not, and how surely who does is found. */
export const fleet = part({
  name: 'fleet',
  title: 'Who stands out, and what changed',
  sizes: { small: { fleets: 5, series: 100 }, full: { fleets: 200, series: 5000 } },
  fullS: 390,
  run({ fleets, series }, seed, onProgress) {
    const claims = Object.entries(kinds).flatMap(([kind, of]) => {
      onProgress(`${fleets} fleets of each kind: ${kind}`);
      return of(seed, fleets);
    });
    onProgress(`${fleets} fleets of each kind: changes`);
    const changes = changeClaims(seed, fleets);
    if (series > 0) onProgress(`${series} series of each kind`);
    return {
      drawn: `${fleets} fleets of each kind, and ${series} series over time of each kind`,
      claims: [...claims, ...changes, ...(series > 0 ? overTimeClaims(seed, series) : [])],
    };
  },
});
