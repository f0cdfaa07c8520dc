// Speed of mapped files: `npm run bench:mapped -- --rows 10000000 --files 100000`. One large CSV in another shop's layout beside
// DuckDB's bare read of the same file, and a folder of small ones, each in a process of its own so that its memory shows.
import { spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { createWriteStream, mkdirSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { DuckDBInstance, version } from '@duckdb/node-api';
import { medianSeconds, printTimings, type Timing, timed } from './timing.ts';

const { values } = parseArgs({
  options: {
    rows: { type: 'string', default: '5000000' },
    files: { type: 'string', default: '10000' },
    rounds: { type: 'string', default: '3' },
  },
});
const [rows, files, rounds] = [Number(values.rows), Number(values.files), Number(values.rounds)];
const folder = mkdtempSync(join(tmpdir(), 'dryhold-bench-'));
/** Readings of a job, and of a small file. */
const perJob = 1000;
const perFile = 300;

/** The layouts that are measured: how times stand in them, and what of the map differs. */
const layouts = {
  'elapsed time': { at: (s: number) => (s / 60).toFixed(3).replace('.', ','), elapsed: { column: 'At', unit: 'min' } },
  'date and time': { at: dateAndTime, elapsed: { column: 'At', time: { format: 'dd.MM.yyyy HH:mm:ss' } } },
};

try {
  console.log(
    `${cpus().length} cores (${cpus()[0]?.model.trim()}), Node ${process.versions.node}, DuckDB ${version()}`,
  );
  for (const [name, { at, elapsed }] of Object.entries(layouts)) {
    const file = join(folder, 'log.csv');
    const map = join(folder, 'map.json');
    await writeLog(file, rows, at);
    writeFileSync(map, JSON.stringify(mapOf(elapsed, { column: 'Job' })));
    const bare: Timing[] = [];
    const ours: Timing[] = [];
    let peakMiB = 0;
    for (let round = 0; round < rounds; round += 1) {
      bare.push(await timed(() => bareRead(file)));
      const took = takeIn(file, map);
      if (took.kept !== rows) throw new Error(`${took.kept} of ${rows} rows came in`);
      ours.push(took);
      peakMiB = Math.max(peakMiB, took.peakMiB);
    }
    const ratio = medianSeconds(bare) / medianSeconds(ours);
    console.log(`${name}: ${rows} rows, ${(statSync(file).size / 1e6).toFixed(0)} MB`);
    printTimings('  bare CREATE TABLE AS read_csv, on disk', bare, `${rate(bare)} M rows/s`);
    printTimings('  mapped', ours, `${rate(ours)} M rows/s, ${ratio.toFixed(2)} of bare (goal 0.40)`);
    console.log(`  most memory ${peakMiB} MiB (goal 1024)`);
    rmSync(file);
  }
  const drop = join(folder, 'drop');
  mkdirSync(drop);
  for (let file = 0; file < files; file += 1)
    writeFileSync(
      join(drop, `W-${String(file).padStart(6, '0')}.csv`),
      logText(file, perFile, layouts['date and time'].at),
    );
  const map = join(folder, 'map.json');
  writeFileSync(map, JSON.stringify(mapOf(layouts['date and time'].elapsed, { file_name: true })));
  const took = takeIn(drop, map);
  if (took.kept !== files * perFile) throw new Error(`${took.kept} of ${files * perFile} rows came in`);
  console.log(
    `${files} files of ${perFile} readings: ${took.seconds.toFixed(1)} s, ${((took.seconds / files) * 1e3).toFixed(2)} ms a file, most memory ${took.peakMiB} MiB (goal 1024)`,
  );
} finally {
  rmSync(folder, { recursive: true, force: true });
}

function mapOf(elapsed: object, job: object): object {
  return {
    name: 'bench',
    file: { delimiter: ';', decimal: ',', header_begins: 'Job;' },
    null_words: ['--'],
    over_words: ['beyond'],
    time_zone: 'America/Phoenix',
    rows: [
      {
        table: 'readings',
        columns: {
          job_id: job,
          elapsed_s: elapsed,
          vacuum_pa: { column: 'Vac (mbar)', unit: 'in header' },
          line_c: { column: 'Line', unit: 'F' },
          scale_kg: { column: 'Scale', unit: 'lb' },
        },
      },
    ],
  };
}

function dateAndTime(s: number, job: number): string {
  const text = new Date(Date.UTC(2026, 0, 1 + (job % 365), 8) + s * 1000).toISOString();
  return `${text.slice(8, 10)}.${text.slice(5, 7)}.${text.slice(0, 4)} ${text.slice(11, 19)}`;
}

function logText(job: number, count: number, at: (s: number, job: number) => string): string {
  return `A recorder of ours\nserial;${job}\nJob;At;Vac (mbar);Line;Scale\n${jobLines(job, count, at)}`;
}

function jobLines(job: number, count: number, at: (s: number, job: number) => string): string {
  let text = '';
  for (let row = 0; row < count; row += 1) {
    const vacuum =
      row < 3 ? 'beyond' : (1000 * Math.exp(-row / 80) + 0.1 + (row % 7) / 100).toFixed(3).replace('.', ',');
    const line = row % 10 === 0 ? '--' : (70 + (row % 13) / 10).toFixed(1).replace('.', ',');
    text += `J-${String(job).padStart(6, '0')};${at(row * 10, job)};${vacuum};${line};${(20 - row / 1000).toFixed(2).replace('.', ',')}\n`;
  }
  return text;
}

async function writeLog(path: string, count: number, at: (s: number, job: number) => string): Promise<void> {
  const file = createWriteStream(path);
  file.write(logText(0, Math.min(perJob, count), at));
  for (let job = 1; job * perJob < count; job += 1)
    if (!file.write(jobLines(job, Math.min(perJob, count - job * perJob), at))) await once(file, 'drain');
  file.end();
  await once(file, 'finish');
}

async function bareRead(file: string): Promise<void> {
  const database = join(folder, 'bare.duckdb');
  rmSync(database, { force: true });
  const instance = await DuckDBInstance.create(database);
  const connection = await instance.connect();
  await connection.run(`CREATE TABLE readings AS SELECT * FROM read_csv('${file}')`);
  connection.closeSync();
  instance.closeSync();
}

function takeIn(path: string, map: string): Timing & { peakMiB: number; kept: number } {
  rmSync(join(folder, 'store'), { recursive: true, force: true });
  const script = fileURLToPath(new URL('ingest-alone.ts', import.meta.url));
  const { status, stdout } = spawnSync(process.execPath, [script, join(folder, 'store'), path, map], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  if (status !== 0) throw new Error(`ingest ended with ${status}`);
  return JSON.parse(stdout) as Timing & { peakMiB: number; kept: number };
}

function rate(timings: readonly Timing[]): string {
  return (rows / medianSeconds(timings) / 1e6).toFixed(1);
}
