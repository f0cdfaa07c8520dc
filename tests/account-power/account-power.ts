// How surely cylinder accounts tell what was stolen, mistyped or written elsewhere, and how rarely they accuse wrongly, on drawn shops of
// known truth: `npm run account-power -- --cylinders 20000 --seed 1`.
import { parseArgs } from 'node:util';
import { accuracyTable, worstTrials } from '../truth/accuracy-table.ts';
import { accountClaims } from './account-claims.ts';

const { values } = parseArgs({
  options: {
    cylinders: { type: 'string', default: '20000' },
    seed: { type: 'string', default: '1' },
    worst: { type: 'string', default: '10' },
  },
});
const [cylinders, seed, worst] = [values.cylinders, values.seed, values.worst].map(Number);

const claims = accountClaims(seed, cylinders);
console.log(`${cylinders} cylinders or some more, seed ${seed}; shares with their 95 % interval\n`);
console.log(accuracyTable(claims));
const read = [
  'honest cylinders, all',
  'of all that is called mistyped:',
  'of all that is called misplaced:',
  'add up',
  'booked',
  'nothing on hand',
];
console.log(
  worstTrials(
    claims.filter(({ what }) => read.some((words) => what.includes(words))),
    worst,
  ),
);
