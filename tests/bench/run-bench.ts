import { existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { columnsOf, type Table } from '../../src/records/table.ts';
import { readings as readingsTable } from '../../src/records/tables/readings.ts';
import { readingColumns } from '../../src/simulate/write-readings.ts';
import { type BenchRow, measuredRow } from './bench-row.ts';
import { type DrawnFleet, drawnFleet } from './fleet-folder.ts';
import { intervalFor, jobIdOf } from './fleets/vacuum-job.ts';
import { goals } from './goals.ts';
import { type Cost, dryhold, type RunScript } from './measured-process.ts';
import { measureDay, type YearPlan } from './measure-day.ts';
import { type FleetCosts, type FleetMeasure, measureIngest, measureJudge, measureQuestions } from './measure-fleet.ts';
import { listedCommands, measureStartUp, startOfProgram } from './measure-start-up.ts';
import { polarsBy, type Polars } from './polars.ts';
import { copyStore } from './store-copy.ts';

/** What can be asked for. */
export const parts = ['ingest', 'judge', 'query', 'report', 'day', 'start', 'whole'] as const;
export type BenchPart = (typeof parts)[number];

export interface BenchOptions {
  /** Readings of the fleets; a tenth of each is measured beside it. */
  readonly sizes: readonly number[];
  readonly readingsPerJob: number;
  readonly only: readonly BenchPart[];
  readonly rounds: number;
  readonly seed: number;
  /** Where drawn fleets lie, or are put. */
  readonly folder: string;
  readonly python: string;
  readonly wholeJobs: number;
  readonly year: Omit<YearPlan, 'seed'>;
  /** Commands whose start is measured; absent: all. */
  readonly commands?: readonly string[];
  readonly run: RunScript;
  readonly say: (what: string) => void;
}

/** Fleets of more readings are measured once, and not as CSV, which would fill most disks. */
const largestRepeated = 3e7;
const largestCsv = 2e8;
/** The script keeps readings in memory, some 9 GiB at 1e8. */
const largestForScript = 2e8;

const vacuumColumns = ['elapsed_s', 'vacuum_pa', 'line_c'];

/** Measures all that is asked for, in one run. */
export async function benchRows(options: BenchOptions): Promise<BenchRow[]> {
  const { run, rounds, seed, folder, say } = options;
  mkdirSync(folder, { recursive: true });
  const work = mkdtempSync(join(folder, 'work-'));
  try {
    const polars = polarsBy(options.python);
    const startS = startOfProgram(rounds);
    const measure: FleetMeasure = { run, rounds, folder: work, say };
    const asks = new Set(options.only);
    const rows: BenchRow[] = [];
    if (asks.has('start'))
      rows.push(...measureStartUp(options.commands ?? listedCommands(), rounds, startS, work, say));
    const costs = new Map<number, FleetCosts>();
    const perFleet = (['ingest', 'judge', 'query', 'report'] as const).some((part) => asks.has(part));
    for (const size of perFleet ? withTenths(options.sizes) : []) {
      const jobs = Math.max(1, Math.round(size / options.readingsPerJob));
      const plan = {
        seed,
        jobs,
        intervalS: intervalFor(options.readingsPerJob),
        csv: asks.has('ingest') && size <= largestCsv,
      };
      const fleet = await drawnFleet(run, folder, 'vacuum-logs', plan, say);
      const measured = await measureVacuumLogs(measure, size, fleet, polars, asks, options.sizes.includes(size));
      rows.push(...measured.rows);
      costs.set(size, measured.costs);
      rows.push(...growthRows(costs, size, fleet.readings, startS));
    }
    if (asks.has('whole')) rows.push(...(await measureWholeLogs(measure, options, polars)));
    if (asks.has('day'))
      rows.push(...(await measureDay(measure, folder, { ...options.year, seed }, startS, asks.has('report'))));
    return rows;
  } finally {
    rmSync(work, { recursive: true, force: true });
  }
}

/** Each size with its tenth before it. */
function withTenths(sizes: readonly number[]): number[] {
  return [...new Set(sizes.flatMap((size) => [size / 10, size]))].sort((a, b) => a - b);
}

async function measureVacuumLogs(
  common: FleetMeasure,
  size: number,
  fleet: DrawnFleet,
  polars: Polars,
  asks: ReadonlySet<BenchPart>,
  isAsked: boolean,
): Promise<{ rows: BenchRow[]; costs: FleetCosts }> {
  const large = size > largestRepeated;
  const measure = { ...common, rounds: large ? 1 : common.rounds };
  const name = `${size.toExponential().replace('+', '')} vacuum readings`;
  const rows = [measuredRow(`${name}: drawn`, fleet.drawing, fleet.readings)];
  let costs: FleetCosts = {};
  if (asks.has('ingest') && fleet.csv !== undefined) {
    const done = await measureIngest(measure, 'CSV', name, fleet, fleet.csv, join(common.folder, 'from-csv'));
    rmSync(join(common.folder, 'from-csv'), { recursive: true, force: true });
    rows.push(...done.rows);
    costs = { ...costs, ingestCsv: done.ours };
  }
  const store = join(fleet.folder, 'store');
  const bundle = fleet.parquet ?? '';
  if (asks.has('ingest')) {
    const done = await measureIngest(measure, 'Parquet', name, fleet, bundle, store);
    rows.push(...done.rows);
    costs = { ...costs, ingestParquet: done.ours };
  } else if (!existsSync(store)) await common.run(dryhold, ['ingest', bundle, '--store', store, '--quiet']);
  const judged = join(common.folder, 'judged');
  if (asks.has('judge')) {
    const script = size > largestForScript ? { skipped: 'it would not fit into memory' } : polars;
    const input = { store, numbers: vacuumColumns, texts: ['job_id'], jobsCsv: join(bundle, 'jobs.csv') };
    const done = await measureJudge(measure, name, fleet, input, script, judged, copyStore);
    rows.push(...done.rows);
    costs = { ...costs, judge: done.ours };
  }
  const [query, report] = [asks.has('query') && isAsked, asks.has('report') && isAsked];
  if (query || report) {
    if (!asks.has('judge')) await common.run(dryhold, ['judge', '--store', copyStore(store, judged), '--quiet']);
    rows.push(
      ...(await measureQuestions(measure, name, jobIdOf(Math.ceil(fleet.jobs / 2)), judged, { query, report })),
    );
  }
  rmSync(judged, { recursive: true, force: true });
  return { rows, costs };
}

/** Ten times the data beside one: the times beyond the start of the program. */
function growthRows(
  costs: ReadonlyMap<number, FleetCosts>,
  size: number,
  readings: number,
  startS: number,
): BenchRow[] {
  const [small, large] = [costs.get(size / 10), costs.get(size)];
  if (small === undefined || large === undefined) return [];
  const beyond = (cost: Cost) => Math.max(0.01, cost.seconds - startS);
  const names = { ingestCsv: 'ingest from CSV', ingestParquet: 'ingest from Parquet', judge: 'judge' } as const;
  return (['ingestCsv', 'ingestParquet', 'judge'] as const).flatMap((figure): BenchRow[] => {
    const [before, after] = [small[figure], large[figure]];
    if (before === undefined || after === undefined) return [];
    const what = `growth from ${(size / 10).toExponential().replace('+', '')} to ${size.toExponential().replace('+', '')} readings: time of ${names[figure]}`;
    return [{ what, readings, ratio: beyond(after) / beyond(before), goal: goals.growth }];
  });
}

/** Logs with all that a shop's export holds: no goals are set on them. */
async function measureWholeLogs(measure: FleetMeasure, options: BenchOptions, polars: Polars): Promise<BenchRow[]> {
  const plan = { seed: options.seed, jobs: options.wholeJobs, intervalS: 0, csv: true };
  const fleet = await drawnFleet(options.run, options.folder, 'whole-logs', plan, options.say);
  const name = `${fleet.jobs} whole logs`;
  const store = join(measure.folder, 'whole');
  const ingested = await measureIngest(measure, 'CSV', name, fleet, fleet.csv ?? '', store);
  const kinds = new Map(columnsOf(readingsTable as Table).map(({ name: column, kind }) => [column, kind]));
  const numbers = readingColumns.filter((column) => kinds.get(column) === 'number');
  const texts = readingColumns.filter((column) => kinds.get(column) !== 'number');
  const judged = await measureJudge(
    measure,
    name,
    fleet,
    { store, numbers, texts },
    polars,
    join(measure.folder, 'judged'),
    copyStore,
  );
  return [measuredRow(`${name}: drawn`, fleet.drawing, fleet.readings), ...ingested.rows, ...judged.rows];
}
