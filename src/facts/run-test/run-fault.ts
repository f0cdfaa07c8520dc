import type { Facts } from '../../records/tables/facts.ts';
import type { Job } from '../../records/tables/jobs.ts';
import type { RunSeries } from '../../traces/run-series.ts';
import { knownSaturation } from '../known-saturation.ts';
import type { SteadyRun } from './steady-run.ts';

// Common practice, no source.
/** Behind a metering device outdoors both sides have nearly one pressure: what is swapped is farther apart. */
const swappedRatio = 0.9;
/** A clamp off the pipe shows the air within this [K] … */
const nearAirK = 1.5;
/** … while the pipe would be farther from it: so much superheat … */
const offSuperheatK = 10;
/** … and so much subcooling. */
const offSubcoolingK = 6;
/** One that hung in the air from the beginning hardly moves [K], where the log shows so much before the window [s]. */
const neverK = 1.5;
const seenFromStartS = 600;
/** Neither superheat nor subcooling is so far below 0 [K]: gauge, clamp or refrigerant is another. */
const belowK = -3;
/** Air no system is tested in: a probe in the sun or on the coil, or another unit, outdoors and indoors [K]. */
const hottestOutdoorK = 333.15;
const hottestIndoorK = 318.15;
/** The wet bulb of air is not above its temperature, but for what the two probes differ [K]. */
const wetterK = 1.5;
/** A clamp that comes off jumps by so much from one reading to the next [K], … */
const jumpK = 4;
/** … within so long [s], while the pressure beside it moves by less [ratio]. */
const jumpS = 90;
const movedRatio = 0.03;

/** Why the readings of a steady window cannot be what they are said to be; undefined where they can. */
export function runFault(
  series: RunSeries,
  steady: SteadyRun,
  job: Pick<Job, 'metering_location' | 'refrigerant'> | undefined,
): NonNullable<Facts['run_problem']> | undefined {
  if (steady.liquidPa < swappedRatio * steady.suctionPa) return 'swapped';
  const { outdoorK, indoorK, wetBulbK } = steady;
  if (outdoorK > hottestOutdoorK || indoorK > hottestIndoorK || wetBulbK > indoorK + wetterK) return 'air-absurd';
  const superheatK = steady.suctionLineK - steady.dewK;
  const subcoolingK = job?.metering_location === 'outdoor' ? Number.NaN : steady.bubbleK - steady.liquidLineK;
  const isOff = (name: 'suction_line_c' | 'liquid_line_c', lineK: number) =>
    isNearAir(lineK, steady) && (cameOff(series, steady, name) || neverMoved(series, steady, name));
  if (superheatK > offSuperheatK && isOff('suction_line_c', steady.suctionLineK)) return 'clamp-off';
  if (subcoolingK > offSubcoolingK && isOff('liquid_line_c', steady.liquidLineK)) return 'clamp-off';
  // Liquid that floods the suction line of a blend is as cold as its bubble point.
  const glideK = steady.dewK - (knownSaturation(job?.refrigerant)?.bubbleK(steady.suctionPa) ?? steady.dewK);
  return superheatK < belowK - glideK || subcoolingK < belowK ? 'below-dew' : undefined;
}

function isNearAir(lineK: number, { outdoorK, indoorK }: SteadyRun): boolean {
  return Math.abs(lineK - outdoorK) < nearAirK || Math.abs(lineK - indoorK) < nearAirK;
}

/** Whether a line's temperature stayed the same while the system started and settled. */
function neverMoved({ elapsedS, columns }: RunSeries, { window }: SteadyRun, name: 'suction_line_c' | 'liquid_line_c') {
  if (elapsedS[window.fromRow] - elapsedS[0] < seenFromStartS) return false;
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const celsius of columns[name]?.subarray(0, window.toRow) ?? []) {
    if (celsius < least) least = celsius;
    if (celsius > most) most = celsius;
  }
  return most >= least && most - least < neverK;
}

/** Whether a line's temperature jumped before or in the window as a pipe's cannot, while its pressure went on. */
function cameOff({ elapsedS, columns }: RunSeries, { window }: SteadyRun, name: 'suction_line_c' | 'liquid_line_c') {
  const lineC = columns[name];
  const pressurePa = name === 'suction_line_c' ? columns.suction_pa : columns.liquid_pa;
  if (lineC === undefined) return false;
  const fromS = elapsedS[window.fromRow] - 900;
  for (let row = window.toRow - 1; row > 0; row -= 1) {
    let before = row;
    while (before > 0 && elapsedS[row] - elapsedS[before] < jumpS) before -= 1;
    if (elapsedS[before] < fromS) break;
    const hasMoved = pressurePa !== undefined && Math.abs(pressurePa[row] / pressurePa[before] - 1) >= movedRatio;
    if (Math.abs(lineC[row] - lineC[before]) > jumpK && !hasMoved) return true;
  }
  return false;
}
