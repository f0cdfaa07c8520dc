// Speed of ingest and judging beside DuckDB's bare read of the same file, in one run: `npm run bench -- --jobs 10000`.
// --interval 0.5 makes every gauge log twice a second: fewer, longer logs, of 3000 readings. --jobs 33000 --interval 0.5 --rounds 1
// are 1e8 readings, which take 4 GB in the folder for temporary files. Prints ratios and CPU seconds, so that a busy machine shows.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { DuckDBInstance, version } from '@duckdb/node-api';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { writeBundle } from '../../src/simulate/write-bundle.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { Store } from '../../src/store/store.ts';
import { medianSeconds, printTimings, type Timing, timed } from './timing.ts';

const { values } = parseArgs({
  options: {
    jobs: { type: 'string', default: '10000' },
    rounds: { type: 'string', default: '3' },
    seed: { type: 'string', default: '1' },
    interval: { type: 'string' },
  },
});
const jobs = Number(values.jobs);
const rounds = Number(values.rounds);
const interval = values.interval === undefined ? {} : { intervalS: Number(values.interval) };
const folder = mkdtempSync(join(tmpdir(), 'dryhold-bench-'));

try {
  const bundle = join(folder, 'bundle');
  const { readings } = await writeBundle(simulateFleet({ jobs, seed: Number(values.seed), ...interval }), bundle);
  const csv = join(bundle, 'readings.csv');
  console.log(
    `${cpus().length} cores (${cpus()[0]?.model.trim()}), Node ${process.versions.node}, DuckDB ${version()}`,
  );
  console.log(
    `${jobs} jobs, ${readings} readings, ${(statSync(csv).size / 1e6).toFixed(0)} MB of CSV, ${rounds} rounds, medians`,
  );

  const bare: Timing[] = [];
  const ours: Timing[] = [];
  const whole: Timing[] = [];
  const judging: (Timing & { peakMiB: number })[] = [];
  for (let round = 0; round < rounds; round += 1) {
    bare.push(await timed(() => bareRead(csv, join(folder, 'bare.duckdb'))));
    const readingsOnly = await Store.open(fresh('readings-only'), 'write');
    ours.push(await timed(() => ingest(readingsOnly, [csv])));
    await readingsOnly.close();
    const store = await Store.open(fresh('store'), 'write');
    whole.push(await timed(() => ingest(store, [bundle])));
    await store.close();
    judging.push(judgeAlone(join(folder, 'store')));
  }
  const rate = (timings: Timing[]) => `${(readings / medianSeconds(timings) / 1e6).toFixed(1)} M`;
  const ratio = (timings: Timing[]) => (medianSeconds(bare) / medianSeconds(timings)).toFixed(2);
  printTimings('bare CREATE TABLE AS read_csv, on disk', bare, `${rate(bare)} rows/s`);
  printTimings('ingest of that file', ours, `${rate(ours)} rows/s, ${ratio(ours)} of bare (goal 0.50)`);
  printTimings('ingest of the whole bundle', whole, `${rate(whole)} rows/s, ${ratio(whole)} of bare`);
  printTimings('judge: facts and findings', judging, `${rate(judging)} readings/s (goal 10)`);
  console.log(
    `most memory of judging alone ${Math.max(...judging.map(({ peakMiB }) => peakMiB)).toFixed(0)} MiB (goal 1024)`,
  );
} finally {
  rmSync(folder, { recursive: true, force: true });
}

/** Judges in a process of its own. */
function judgeAlone(store: string): Timing & { peakMiB: number } {
  const script = fileURLToPath(new URL('judge-alone.ts', import.meta.url));
  const { status, stdout } = spawnSync(process.execPath, [script, store], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  if (status !== 0) throw new Error(`judging ended with ${status}`);
  return JSON.parse(stdout) as Timing & { peakMiB: number };
}

function fresh(name: string): string {
  const path = join(folder, name);
  rmSync(path, { recursive: true, force: true });
  return path;
}

async function bareRead(csv: string, database: string): Promise<void> {
  rmSync(database, { force: true });
  const instance = await DuckDBInstance.create(database);
  const connection = await instance.connect();
  await connection.run(`CREATE TABLE readings AS SELECT * FROM read_csv('${csv}')`);
  connection.closeSync();
  instance.closeSync();
}
