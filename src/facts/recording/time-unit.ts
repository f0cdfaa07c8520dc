import type { ScannedSeries } from './scanned-series.ts';
import type { UnitSuspicion } from './unit-suspicion.ts';
import { usualInterval } from './usual-interval.ts';

// Common practice, no source; set on simulated jobs (tests/truth).
/** Two steps of a job or more — test, vacuum, charge, run — take longer than this together [s]. */
const shortestJobS = 240;
/** A log of one job is over within so long [s], 8 days, which in milliseconds is 12 minutes … */
const longestJobS = 691_200;
/** … and is read more often than this [s]. */
const longestIntervalS = 400;
/** A recorder that reads so often [s] for so long is none of the trade; in minutes it reads once a second and more seldom. */
const shortestIntervalS = 0.06;
const fewest = 100;
/** One step alone takes longer than this [s]. */
const shortestStepS = 75;

/** Whether the times of the log are minutes, hours or milliseconds: too short for the work that it shows, or too long for any. */
export function timeUnit(all: readonly ScannedSeries[]): UnitSuspicion | undefined {
  const read = all.filter(({ scan, series }) => scan.readings >= 20 && series.column !== 'line_c');
  if (read.length === 0) return undefined;
  const firstS = Math.min(...read.map(({ series }) => series.elapsedS[0]));
  const lastS = Math.max(...read.map(({ series }) => series.elapsedS[series.elapsedS.length - 1]));
  const spanS = lastS - firstS;
  const steps = stepsShown(read);
  const [{ series, scan }] = read.toSorted((a, b) => b.scan.readings - a.scan.readings);
  const middle = series.values.length >> 1;
  const everyS = usualInterval(series.elapsedS, series.values, middle - 1, middle);
  const common = { column: 'elapsed_s', sign: 'times', said: 's' } as const;
  if (spanS > longestJobS && everyS >= longestIntervalS)
    return { ...common, likely: 'ms', factor: 0.001, isSure: false, also: 'a clock that was set in between' };
  const isFast = everyS < shortestIntervalS && scan.readings >= fewest && spanS < 600 && steps >= 1;
  const isShort =
    (steps >= 2 && spanS < shortestJobS) ||
    (steps === 1 && spanS < shortestStepS && scan.readings >= 60 && isWhole(read));
  if (!isFast && !isShort) return undefined;
  const isHours = spanS < shortestJobS / 60;
  return { ...common, likely: isHours ? 'h' : 'min', factor: isHours ? 3600 : 60, isSure: steps >= 2 };
}

/** How many steps of a job the log shows as they go: a test that was filled, a vacuum that was pulled, a charge, a run. */
function stepsShown(read: readonly ScannedSeries[]): number {
  const scanOf = (name: string) => read.find(({ series }) => series.column === name)?.scan;
  const vacuum = scanOf('vacuum_pa');
  const test = scanOf('test_pressure_pa');
  const scale = scanOf('scale_kg');
  const liquid = scanOf('liquid_pa') ?? scanOf('suction_pa');
  return [
    vacuum !== undefined && vacuum.least < vacuum.most / 20,
    test !== undefined && test.most > 600_000,
    scale !== undefined && scale.most - scale.least > 0.1,
    liquid !== undefined && liquid.most > 1.2 * liquid.least,
  ].filter(Boolean).length;
}

/** Whether a vacuum was pulled down from where its gauge begins, and rose again: a whole evacuation. */
function isWhole(read: readonly ScannedSeries[]): boolean {
  const vacuum = read.find(({ series }) => series.column === 'vacuum_pa');
  if (vacuum === undefined) return false;
  const { values } = vacuum.series;
  return values[0] > 20 * vacuum.scan.least && values[values.length - 1] > 1.1 * vacuum.scan.least;
}
