// Speed of ingest and judging beside DuckDB's bare read of the same file, in one run: `npm run bench -- --jobs 10000`.
// --interval 0.5 makes every gauge log twice a second: fewer, longer logs. Prints ratios and CPU seconds, so that a busy machine shows.
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { DuckDBInstance, version } from '@duckdb/node-api';
import { median } from '../../src/numerics/median.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { writeBundle } from '../../src/simulate/write-bundle.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { judge } from '../../src/steps/judge.ts';
import { Store } from '../../src/store/store.ts';

interface Timing {
  readonly seconds: number;
  readonly cpuSeconds: number;
}

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
  const judging: Timing[] = [];
  for (let round = 0; round < rounds; round += 1) {
    bare.push(await timed(() => bareRead(csv, join(folder, 'bare.duckdb'))));
    const readingsOnly = await Store.open(fresh('readings-only'), 'write');
    ours.push(await timed(() => ingest(readingsOnly, [csv])));
    await readingsOnly.close();
    const store = await Store.open(fresh('store'), 'write');
    whole.push(await timed(() => ingest(store, [bundle])));
    judging.push(await timed(() => judge(store)));
    await store.close();
  }
  const rate = (timings: Timing[]) => readings / seconds(timings) / 1e6;
  print('bare CREATE TABLE AS read_csv, on disk', bare, `${rate(bare).toFixed(1)} M rows/s`);
  print(
    'ingest of that file',
    ours,
    `${rate(ours).toFixed(1)} M rows/s, ${(seconds(bare) / seconds(ours)).toFixed(2)} of bare (goal 0.50)`,
  );
  print(
    'ingest of the whole bundle',
    whole,
    `${rate(whole).toFixed(1)} M rows/s, ${(seconds(bare) / seconds(whole)).toFixed(2)} of bare`,
  );
  print('judge: facts and findings', judging, `${rate(judging).toFixed(1)} M readings/s (goal 10)`);
  console.log(`peak memory ${(process.resourceUsage().maxRSS / 1024).toFixed(0)} MiB`);
} finally {
  rmSync(folder, { recursive: true, force: true });
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

async function timed(work: () => Promise<unknown>): Promise<Timing> {
  const cpu = process.cpuUsage();
  const start = performance.now();
  await work();
  const used = process.cpuUsage(cpu);
  return { seconds: (performance.now() - start) / 1000, cpuSeconds: (used.user + used.system) / 1e6 };
}

function seconds(timings: Timing[]): number {
  return median(timings.map((timing) => timing.seconds));
}

function print(what: string, timings: Timing[], says: string): void {
  const cpu = median(timings.map((timing) => timing.cpuSeconds));
  console.log(
    `${what.padEnd(40)} ${seconds(timings).toFixed(2).padStart(7)} s  ${cpu.toFixed(2).padStart(7)} s CPU  ${says}`,
  );
}
