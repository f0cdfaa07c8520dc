// How near the judgement of vacuum logs and standing tests comes to the truth, on single ones whose truth is known:
// `node tests/truth/truth.ts --jobs 2000 --seed 1 --worst 10`. --job N prints one trial, --csv FILE writes its trace.
// As many standing pressure tests, weigh-ins, jobs of a fleet and run tests are judged beside; --only vacuum, pressure, charge,
// run or recording leaves the others out.
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { textTable } from '../../src/cli/text-table.ts';
import { accuracyTable, worstTrials } from './accuracy-table.ts';
import { blindnessClaims } from './blindness-claims.ts';
import { chargeClaims } from './charge-claims.ts';
import { chargeTrials } from './charge-trial.ts';
import { type Claim, claim } from './claim.ts';
import { commonPractice } from './common-practice.ts';
import { drawTrial } from './draw-trial.ts';
import { holdClaims } from './hold-claims.ts';
import { isolationClaims } from './isolation-claims.ts';
import { leakClaims } from './leak-claims.ts';
import { plateauClaims } from './plateau-claims.ts';
import { recordingClaims } from './recording-claims.ts';
import { recordingFaults } from '../../src/simulate/mishaps/recording-faults.ts';
import { cleanTrials, faultyTrials } from './recording-trial.ts';
import { runningClaims } from './running-claims.ts';
import { runningTrial } from './running-trial.ts';
import { runTrial } from './run-trial.ts';
import { shapeClaims, shapeConfusion } from './shape-claims.ts';
import { drawStandingTrial } from './draw-standing-trial.ts';
import { standingClaims } from './standing-claims.ts';
import { standingTrial } from './standing-trial.ts';
import { traceCsv } from './trace-csv.ts';
import { trialResult } from './trial-result.ts';
import { weighInClaims } from './weigh-in-claims.ts';
import { weighInTrial } from './weigh-in-trial.ts';

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
  const isAsked = (table: string) => values.only === undefined || values.only === table;
  if (isAsked('vacuum')) vacuumTable();
  if (isAsked('pressure')) pressureTable();
  if (isAsked('charge')) chargeTables();
  if (isAsked('run')) runTable();
  if (isAsked('recording')) recordingTable();
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
  printed(`${results.length} standing pressure tests`, standingClaims(results));
}

function chargeTables(): void {
  const count = Number(values.jobs);
  const weighIns = Array.from({ length: count }, (_, index) => weighInTrial(seed, index + 1));
  printed(`${count} weigh-ins alone`, weighInClaims(weighIns));
  printed(`${count} jobs of a fleet`, chargeClaims(chargeTrials(count, seed)));
}

function runTable(): void {
  const count = Number(values.jobs);
  const of = (kind: Parameters<typeof runningTrial>[2], share: number) =>
    Array.from({ length: Math.ceil(count * share) }, (_, index) => runningTrial(seed, index + 1, kind));
  const claims = runningClaims(of('usual', 1), of('good-instruments', 0.5), of('other-refrigerant', 0.5));
  printed(`${count} run tests, half as many each with good instruments and with another refrigerant`, claims);
}

function recordingTable(): void {
  const count = Number(values.jobs);
  const tampered = Math.ceil(count / 10);
  const claims = recordingClaims(cleanTrials(count, seed), faultyTrials(tampered, seed, recordingFaults));
  printed(
    `${count} logs of a fleet as recorded, and each of ${tampered} with every fault that can happen to it`,
    claims,
  );
}

function printed(what: string, claims: readonly Claim[]): void {
  console.log(`\n${what}, seed ${seed}; shares with their 95 % interval\n`);
  console.log(accuracyTable(claims));
  console.log(worstTrials(claims, Number(values.worst)));
}
