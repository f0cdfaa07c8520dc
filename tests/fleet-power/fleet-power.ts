// How rarely somebody is said to stand out who does not, and how surely who does is found, on drawn fleets of known truth:
// `npm run fleet-power -- --fleets 200 --series 20000 --seed 1`. --series are the series over time of each kind; 0 leaves them out.
import { parseArgs } from 'node:util';
import { overTimeClaims } from '../fleet/statistics/over-time-power.ts';
import { accuracyTable } from '../truth/accuracy-table.ts';
import { changeClaims } from './change-claims.ts';
import { fleetClaims } from './fleet-claims.ts';

const { values } = parseArgs({
  options: {
    fleets: { type: 'string', default: '200' },
    series: { type: 'string', default: '5000' },
    seed: { type: 'string', default: '1' },
  },
});
const [fleets, series, seed] = [values.fleets, values.series, values.seed].map(Number);

console.log(`${fleets} fleets of each kind, seed ${seed}; shares with their 95 % interval\n`);
console.log(accuracyTable([...fleetClaims(seed, fleets), ...changeClaims(seed, fleets)]));
if (series > 0) {
  console.log(`\n${series} series of each kind over time, seed ${seed}\n`);
  console.log(accuracyTable(overTimeClaims(seed, series)));
}
