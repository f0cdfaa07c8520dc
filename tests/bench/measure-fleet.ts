import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type BenchRow, measuredRow } from './bench-row.ts';
import { type DrawnFleet, readingsOf, segmentsOf } from './fleet-folder.ts';
import { fewestForSpeed, goals } from './goals.ts';
import { type Cost, dryhold, ofRounds, type RunScript } from './measured-process.ts';
import type { Polars, ScriptFailure } from './polars.ts';

const bare = fileURLToPath(new URL('bare.ts', import.meta.url));

/** How a fleet is measured. */
export interface FleetMeasure {
  readonly run: RunScript;
  readonly rounds: number;
  /** Where stores and pages go. */
  readonly folder: string;
  readonly say: (what: string) => void;
}

/** What the rows of a fleet rest on, for comparing fleets. */
export interface FleetCosts {
  readonly ingestCsv?: Cost;
  readonly ingestParquet?: Cost;
  readonly judge?: Cost;
}

/** Runs the engine alone; its seconds are those of the query. */
async function bareCost(run: RunScript, args: readonly string[]): Promise<Cost> {
  const { stdout, peakMiB } = await run(bare, args);
  return { ...(JSON.parse(stdout) as { seconds: number; cpuSeconds: number }), peakMiB };
}

/**
 * Ingest of a bundle beside the engine's bare reading of its readings into a table, turn by turn.
 *
 * @param store where the last round leaves its store
 */
export async function measureIngest(
  { run, rounds, folder, say }: FleetMeasure,
  kind: 'CSV' | 'Parquet',
  name: string,
  { readings }: DrawnFleet,
  bundle: string,
  store: string,
): Promise<{ rows: BenchRow[]; ours: Cost }> {
  const ours: Cost[] = [];
  const theirs: Cost[] = [];
  for (let round = 0; round < rounds; round += 1) {
    say(`${name}: ${kind} is taken in`);
    theirs.push(await bareCost(run, ['read', readingsOf(bundle), join(folder, 'bare.duckdb')]));
    rmSync(store, { recursive: true, force: true });
    ours.push(await run(dryhold, ['ingest', bundle, '--store', store, '--quiet']));
  }
  const [own, engine] = [ofRounds(ours), ofRounds(theirs)];
  const goal = kind === 'CSV' && readings >= fewestForSpeed ? { goal: goals.ingestOfBare } : {};
  return {
    ours: own,
    rows: [
      measuredRow(`${name}: bare read of ${kind} into a table`, engine, readings),
      measuredRow(`${name}: ingest from ${kind}`, own, readings),
      {
        what: `${name}: speed of ingest from ${kind} over that of the bare read`,
        readings,
        ratio: engine.seconds / own.seconds,
        ...goal,
      },
    ],
  };
}

/** What is to be judged: a store that was not, and which columns judging reads. */
export interface JudgeInput {
  readonly store: string;
  readonly numbers: readonly string[];
  readonly texts: readonly string[];
  /** The rows of the jobs, for the script; absent: it is not run on this fleet. */
  readonly jobsCsv?: string;
}

/** Judging beside the bare scan of the same columns and the polars script, turn by turn; leaves a judged store in `judged`. */
export async function measureJudge(
  { run, rounds, folder, say }: FleetMeasure,
  name: string,
  { readings }: DrawnFleet,
  input: JudgeInput,
  polars: Polars,
  judged: string,
  copy: (from: string, to: string) => string,
): Promise<{ rows: BenchRow[]; ours: Cost }> {
  const ours: Cost[] = [];
  const scans: Cost[] = [];
  const scripts: Cost[] = [];
  const segments = segmentsOf(input.store);
  let failure: ScriptFailure | undefined = 'judge' in polars ? undefined : polars;
  for (let round = 0; round < rounds; round += 1) {
    say(`${name}: judged`);
    scans.push(await bareCost(run, ['scan', segments, input.numbers.join(','), input.texts.join(',')]));
    copy(input.store, judged);
    ours.push(await run(dryhold, ['judge', '--store', judged, '--quiet']));
    if (input.jobsCsv === undefined || !('judge' in polars) || failure !== undefined) continue;
    const script = await polars.judge(segments, input.jobsCsv, join(folder, 'polars.parquet'));
    if ('skipped' in script) failure = script;
    else scripts.push(script);
  }
  const [own, scan] = [ofRounds(ours), ofRounds(scans)];
  const ofVacuum = input.jobsCsv !== undefined;
  const asked = ofVacuum && readings >= fewestForSpeed;
  const rows = [
    measuredRow(`${name}: bare scan of the same columns of the store`, scan, readings),
    measuredRow(`${name}: judge`, own, readings, asked ? goals.judgeRate : undefined),
    { what: `${name}: most memory of judging`, readings, peakMiB: own.peakMiB, goal: goals.judgeMemory },
    {
      what: `${name}: time of judge over that of the bare scan`,
      readings,
      ratio: own.seconds / scan.seconds,
      ...(asked ? { goal: goals.judgeOverScan } : {}),
    },
  ];
  return {
    ours: own,
    rows: ofVacuum ? [...rows, ...scriptRows(name, readings, own, failure ?? scripts, asked)] : rows,
  };
}

function scriptRows(
  name: string,
  readings: number,
  own: Cost,
  scripts: readonly Cost[] | ScriptFailure,
  asked: boolean,
): BenchRow[] {
  const what = `${name}: polars script`;
  if ('skipped' in scripts) return [{ what, readings, skipped: scripts.skipped }];
  const script = ofRounds(scripts);
  return [
    measuredRow(what, script, readings),
    {
      what: `${name}: time of the polars script over that of judge`,
      readings,
      ratio: script.seconds / own.seconds,
      ...(asked ? { goal: goals.polarsOverJudge } : {}),
    },
  ];
}

/** One job asked for, and the pages of all. */
export async function measureQuestions(
  { run, rounds, folder, say }: FleetMeasure,
  name: string,
  jobId: string,
  judged: string,
  asks: { readonly query: boolean; readonly report: boolean },
): Promise<BenchRow[]> {
  const rows: BenchRow[] = [];
  const ask = async (what: string, times: number, args: readonly string[]) => {
    say(`${name}: ${what}`);
    const costs: Cost[] = [];
    for (let round = 0; round < times; round += 1) costs.push(await run(dryhold, [...args, '--store', judged]));
    rows.push(measuredRow(`${name}: ${what}`, ofRounds(costs)));
  };
  const count = `SELECT count(*), min(vacuum_pa) FROM readings WHERE job_id = '${jobId}'`;
  if (asks.query) await ask('show of one job', rounds, ['show', jobId, '--json']);
  if (asks.query) await ask('query of the readings of one job', rounds, ['query', count, '--json']);
  if (asks.report) await ask('report', 1, ['report', '--out', join(folder, 'pages'), '--quiet']);
  return rows;
}
