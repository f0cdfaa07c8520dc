// How surely a curve that stands in two jobs is found, and how rarely two honest jobs are matched:
// `npm run copies -- --jobs 1000000 --planted 500 --seed 1`. --steps says in how many parts the fleet comes in.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { Store } from '../../src/store/store.ts';
import { accuracyTable, worstTrials } from '../truth/accuracy-table.ts';
import { plantedJobs } from './copied-fleet.ts';
import { comparedShare, copiesClaims } from './copies-claims.ts';
import { copiesRun } from './copies-run.ts';

const { values } = parseArgs({
  options: {
    jobs: { type: 'string', default: '20000' },
    planted: { type: 'string', default: '200' },
    seed: { type: 'string', default: '1' },
    steps: { type: 'string', default: '4' },
    worst: { type: 'string', default: '10' },
  },
});
const fleet = { seed: Number(values.seed), jobs: Number(values.jobs), planted: Number(values.planted) };
const all = fleet.jobs + plantedJobs(fleet).length;
const folder = mkdtempSync(join(tmpdir(), 'dryhold-copies-'));

try {
  const store = await Store.open(join(folder, 'store'), 'write');
  const run = await copiesRun(store, fleet, all, Math.ceil(all / Number(values.steps)), (says) => console.error(says));
  await store.close();
  console.log(
    `${fleet.jobs} honest jobs and ${all - fleet.jobs} copies, seed ${fleet.seed}; shares with their 95 % interval\n`,
  );
  const claims = copiesClaims(fleet, run);
  console.log(accuracyTable(claims));
  console.log(worstTrials(claims, Number(values.worst)));
  for (const [name, share] of Object.entries(comparedShare(fleet, run)))
    console.log(`curves that could be compared, ${name}: ${(100 * share).toFixed(1)} %`);
  console.log(
    `\n${run.curves} curves of ${run.readings} readings; prints ${((run.printSeconds / run.readings) * 1e9).toFixed(0)} ns a reading, ` +
      `${((run.printSeconds / all) * 1000).toFixed(2)} ms a job; ${run.candidates} candidates`,
  );
  for (const { jobs, latest, seconds, cpuSeconds } of run.steps)
    console.log(
      `search among ${jobs} jobs for copies of the latest ${latest}: ${seconds.toFixed(1)} s, ${cpuSeconds.toFixed(1)} s CPU, ` +
        `${((cpuSeconds / latest) * 1e6).toFixed(0)} µs CPU a job`,
    );
  console.log(`most memory ${(process.resourceUsage().maxRSS / 1024).toFixed(0)} MiB`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
