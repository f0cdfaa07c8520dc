// How near the judgement of vacuum logs and standing tests comes to the truth, on single ones whose truth is known:
// `node tests/truth/truth.ts --jobs 2000 --seed 1 --worst 10`. --job N prints one trial, --csv FILE writes its trace.
// As many standing pressure tests are judged beside; --only vacuum or --only pressure leaves the others out.
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { textTable } from '../../src/cli/text-table.ts';
import { accuracyTable, worstTrials } from './accuracy-table.ts';
import { blindnessClaims } from './blindness-claims.ts';
import { claim } from './claim.ts';
import { commonPractice } from './common-practice.ts';
import { drawTrial } from './draw-trial.ts';
import { holdClaims } from './hold-claims.ts';
import { isolationClaims } from './isolation-claims.ts';
import { leakClaims } from './leak-claims.ts';
import { plateauClaims } from './plateau-claims.ts';
import { runTrial } from './run-trial.ts';
import { shapeClaims, shapeConfusion } from './shape-claims.ts';
import { drawStandingTrial } from './draw-standing-trial.ts';
import { standingClaims } from './standing-claims.ts';
import { standingTrial } from './standing-trial.ts';
import { traceCsv } from './trace-csv.ts';
import { trialResult } from './trial-result.ts';

const { values } = parseArgs({
  options: {
    jobs: { type: 'string', default: '2000' },
    seed: { type: 'string', default: '1' },
    worst: { type: 'string', default: '10' },
    job: { type: 'string' },
    csv: { type: 'string' },
    only: { type: 'string' },
  },
});
const seed = Number(values.seed);

if (values.job === undefined) {
  if (values.only !== 'pressure') vacuumTable();
  if (values.only !== 'vacuum') pressureTable();
} else {
  const plan = drawTrial(seed, Number(values.job));
  const { truth, facts } = trialResult(plan);
  console.log(JSON.stringify({ plan, truth, facts }, null, 2));
  if (values.csv !== undefined) writeFileSync(values.csv, traceCsv(runTrial(plan)));
}

function vacuumTable(): void {
  const before = process.cpuUsage();
  const results = Array.from({ length: Number(values.jobs) }, (_, index) => trialResult(drawTrial(seed, index + 1)));
  const claims = [
    ...isolationClaims(results),
    ...holdClaims(results),
    ...shapeClaims(results),
    ...leakClaims(results),
    ...plateauClaims(results),
    ...blindnessClaims(results),
    claim(
      'time for the facts of a job, median',
      results.map(({ plan, factsMs }) => ({ plan, value: factsMs, badness: 0, says: '' })),
      { write: (value) => `${value.toFixed(2)} ms` },
    ),
  ];
  const [heads, ...rows] = shapeConfusion(results);
  const [practiceHeads, ...practice] = commonPractice(seed, Math.min(200, results.length));
  console.log(`${results.length} trials, seed ${seed}; shares with their 95 % interval\n`);
  console.log(`${accuracyTable(claims)}\n`);
  console.log(`shapes\n${textTable(heads, rows)}\n`);
  console.log(
    `250 µm, held 15 min, isolated 5 or 10 min, at most 500 µm, dry and tight\n${textTable(practiceHeads, practice)}`,
  );
  console.log(worstTrials(claims, Number(values.worst)));
  const { user, system } = process.cpuUsage(before);
  console.log(`\n${((user + system) / 1000 / results.length).toFixed(1)} ms CPU a trial, all told`);
}

function pressureTable(): void {
  const results = Array.from({ length: Number(values.jobs) }, (_, index) =>
    standingTrial(drawStandingTrial(seed, index + 1)),
  );
  const claims = standingClaims(results);
  console.log(`\n${results.length} standing pressure tests, seed ${seed}; shares with their 95 % interval\n`);
  console.log(accuracyTable(claims));
  console.log(worstTrials(claims, Number(values.worst)));
}
