import { existsSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { days } from '../../src/simulate/calendar.ts';
import { type BenchRow, measuredRow } from './bench-row.ts';
import { drawnFleet, type FleetPlan } from './fleet-folder.ts';
import { intervalFor } from './fleets/vacuum-job.ts';
import { goals } from './goals.ts';
import { type Cost, dryhold, ofRounds, together } from './measured-process.ts';
import type { FleetMeasure } from './measure-fleet.ts';
import { copyStore } from './store-copy.ts';

/** A year that is in the store and judged, and the day that comes after it. */
export interface YearPlan {
  readonly jobs: number;
  readonly dayJobs: number;
  readonly readingsPerJob: number;
  readonly seed: number;
}

/**
 * One more day, delivered as CSV and judged, on a store with a judged year.
 *
 * @param drawnFolder where the fleets and the store of the year lie, or are put
 * @param startS what a start of the program takes [s]
 */
export async function measureDay(
  measure: FleetMeasure,
  drawnFolder: string,
  year: YearPlan,
  startS: number,
  withReport: boolean,
): Promise<BenchRow[]> {
  const { run, rounds, folder, say } = measure;
  const common = { seed: year.seed, intervalS: intervalFor(year.readingsPerJob) };
  const yearPlan: FleetPlan = { ...common, jobs: year.jobs, csv: false };
  const oneDay = { firstNumber: year.jobs + 1, day: days - 1 };
  const before = await drawnFleet(run, drawnFolder, 'vacuum-logs', yearPlan, say);
  const day = await drawnFleet(
    run,
    drawnFolder,
    'vacuum-logs',
    { ...common, jobs: year.dayJobs, oneDay, csv: true },
    say,
  );
  const judgedYear = join(before.folder, 'judged');
  if (!existsSync(judgedYear)) {
    say(`a year of ${year.jobs} jobs is taken in and judged`);
    // Under its name only once it is whole.
    const unfinished = `${judgedYear}-unfinished`;
    rmSync(unfinished, { recursive: true, force: true });
    await run(dryhold, ['ingest', before.parquet ?? '', '--store', unfinished, '--quiet']);
    await run(dryhold, ['judge', '--store', unfinished, '--quiet']);
    renameSync(unfinished, judgedYear);
  }
  const store = join(folder, 'day');
  const ingests: Cost[] = [];
  const judgings: Cost[] = [];
  for (let round = 0; round < rounds; round += 1) {
    say(`a day of ${year.dayJobs} jobs is added`);
    copyStore(judgedYear, store);
    ingests.push(await run(dryhold, ['ingest', day.csv ?? '', '--store', store, '--quiet']));
    judgings.push(await run(dryhold, ['judge', '--store', store, '--quiet']));
  }
  const [ingest, judge] = [ofRounds(ingests), ofRounds(judgings)];
  const both = together(ingest, judge);
  const pages = ['report', '--store', store, '--out', join(folder, 'pages'), '--quiet'];
  if (withReport) say('the report of year and day');
  const report = withReport ? await run(dryhold, pages) : undefined;
  const name = `a day of ${year.dayJobs} jobs added to ${year.jobs}`;
  return [
    measuredRow(`${name}: ingest`, ingest, day.readings),
    measuredRow(`${name}: judge`, judge, day.readings),
    {
      what: `${name}: both, beyond two starts`,
      readings: day.readings,
      seconds: Math.max(0, both.seconds - 2 * startS),
      cpuSeconds: both.cpuSeconds,
      peakMiB: both.peakMiB,
      goal: goals.dayAdded,
    },
    ...(report === undefined ? [] : [measuredRow(`${name}: report of all`, report)]),
  ];
}
