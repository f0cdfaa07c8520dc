import { mkdirSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { columnsOf, type Table } from '../../../src/records/table.ts';
import { gauges } from '../../../src/records/tables/gauges.ts';
import { jobs as jobsTable } from '../../../src/records/tables/jobs.ts';
import { memberships } from '../../../src/records/tables/memberships.ts';
import { people } from '../../../src/records/tables/people.ts';
import { CsvFile, type CsvValue } from '../../../src/simulate/csv-file.ts';
import { simulateFleet } from '../../../src/simulate/fleet.ts';
import { monthOf, type VacuumLogFleet } from './vacuum-job.ts';
import type { DrawnPart, FleetPart } from './vacuum-log-worker.ts';

/** Jobs whose readings stand in one file at most: a thread holds no more of them in memory. */
const partJobs = 1000;
/** Jobs for which it is worth while to start a thread. */
const fewestJobs = 100;

type Rows = readonly Readonly<Record<string, CsvValue>>[];

/**
 * Draws a fleet of vacuum logs as a bundle: readings as Parquet, a month in one file or in several, the small tables as CSV.
 * Every job is simulated on its own, on as many threads as there are cores; equal fleets give equal bundles.
 *
 * @returns how many readings were written
 */
export async function drawVacuumLogs(fleet: VacuumLogFleet, outDir: string): Promise<number> {
  mkdirSync(join(outDir, 'readings'), { recursive: true });
  const columns = columnsOf(jobsTable as Table).map(({ name }) => name);
  const file = await CsvFile.create(join(outDir, 'jobs.csv'), columns);
  let readings = 0;
  const parts = drawnParts(fleet, partsOf(fleet, join(outDir, 'readings')));
  for (let part = parts.shift(); part !== undefined; part = parts.shift()) {
    const drawn = await part;
    await writeRows(file, columns, drawn.jobs);
    readings += drawn.readings;
  }
  await file.close();
  const shop = simulateFleet({ jobs: 1, seed: fleet.seed });
  const small = [
    [people, shop.people],
    [memberships, shop.memberships],
    [gauges, shop.gauges],
  ] as [Table, Rows][];
  for (const [table, rows] of small) {
    const names = columnsOf(table).map(({ name }) => name);
    const whole = await CsvFile.create(join(outDir, `${table.name}.csv`), names);
    await writeRows(whole, names, rows);
    await whole.close();
  }
  return readings;
}

async function writeRows(file: CsvFile, columns: readonly string[], rows: Rows): Promise<void> {
  for (const row of rows) {
    file.row(columns, row);
    await file.flushed();
  }
}

/** Neighbouring jobs of one month, in their order. */
function partsOf(fleet: VacuumLogFleet, folder: string): FleetPart[] {
  const parts: FleetPart[] = [];
  const first = fleet.oneDay?.firstNumber ?? 1;
  for (let from = first, end = from; from < first + fleet.jobs; from = end) {
    const month = monthOf(fleet, from);
    const last = Math.min(from + partJobs, first + fleet.jobs);
    while (end < last && monthOf(fleet, end) === month) end += 1;
    parts.push({ from, end, path: join(folder, `${month}-${String(from).padStart(7, '0')}.parquet`) });
  }
  return parts;
}

/** Draws parts on other threads, each the next one as soon as it is done with one. */
function drawnParts(fleet: VacuumLogFleet, parts: readonly FleetPart[]): Promise<DrawnPart>[] {
  const drawn = parts.map(() => Promise.withResolvers<DrawnPart>());
  const promises = drawn.map(({ promise }) => promise);
  // What is done is let go of: the rows of all jobs would fill the memory.
  const waiting = new Map(drawn.splice(0).entries());
  let next = 0;
  const threads = Math.min(parts.length, availableParallelism(), Math.ceil(fleet.jobs / fewestJobs));
  for (let thread = 0; thread < threads; thread += 1) {
    const worker = new Worker(new URL('vacuum-log-worker.ts', import.meta.url), { workerData: fleet });
    const drawNext = () => {
      const at = next++;
      if (at >= parts.length) {
        worker.postMessage('end');
        return;
      }
      worker.once('message', (part: DrawnPart) => {
        waiting.get(at)?.resolve(part);
        waiting.delete(at);
        drawNext();
      });
      worker.postMessage(parts[at]);
    };
    worker.on('error', (error) => {
      for (const { reject } of waiting.values()) reject(error);
    });
    drawNext();
  }
  // A failure is heard where the part is awaited.
  for (const promise of promises) promise.catch(() => undefined);
  return promises;
}
