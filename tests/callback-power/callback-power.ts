// How well hazard ratios, forerunners and risks of callbacks are told, on drawn fleets of known hazards:
// `npm run callback-power -- --fleets 200 --seed 1`.
import { parseArgs } from 'node:util';
import { accuracyTable } from '../truth/accuracy-table.ts';
import { chanceClaims, ratioClaims } from './forerunner-claims.ts';
import { riskClaims } from './risk-claims.ts';
import { savingClaims } from './saving-claims.ts';
import { visitClaims } from './visit-claims.ts';

const { values } = parseArgs({
  options: { fleets: { type: 'string', default: '200' }, seed: { type: 'string', default: '1' } },
});
const [fleets, seed] = [values.fleets, values.seed].map(Number);

console.log(`${fleets} fleets of each kind, seed ${seed}; shares with their 95 % interval\n`);
for (const claims of [ratioClaims, chanceClaims, visitClaims, savingClaims, riskClaims])
  console.log(`${accuracyTable(claims(seed, fleets))}\n`);
