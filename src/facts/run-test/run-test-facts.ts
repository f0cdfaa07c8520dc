import type { Facts } from '../../records/tables/facts.ts';
import { type RunSeries, runModes } from '../../traces/run-series.ts';
import { type RunningStretch, runningStretches } from '../../traces/running-stretches.ts';
import type { MeasuredRecords } from '../job-material.ts';
import { knownSaturation } from '../known-saturation.ts';
import { runFault } from './run-fault.ts';
import { airUncertainty, clampUncertainty, pressureUncertainty } from './run-uncertainty.ts';
import { stabilisingS, type SteadyRun, steadyRun } from './steady-run.ts';
import { targetSuperheat } from './target-superheat.ts';

/** Air that leaves the coil warmer than it came by so much was heated [K]. Common practice, no source. */
const warmedK = 3;
/** No running system stays below this on both sides, whatever is wrong with it [Pa]. */
const lowestRunPa = 200_000;

/** What the readings of a running system show: its last steady window, superheat and subcooling in it, and their targets. */
export function runTestFacts(
  series: RunSeries | undefined,
  { job }: MeasuredRecords,
  changedS = Number.NEGATIVE_INFINITY,
): Partial<Facts> {
  if (series === undefined) return {};
  const { elapsedS, columns } = series;
  const common: Partial<Facts> = { run_readings: elapsedS.length, ...kindFacts(job) };
  const stretches = runningStretches(series, job?.metering_location !== 'outdoor');
  if (stretches === undefined) return { ...common, run_problem: 'run-unseen' };
  const run = stretches.at(-1);
  if (run === undefined) return { ...common, run_problem: 'not-running' };
  const [startS, endS] = [elapsedS[run.fromRow], elapsedS[run.toRow]];
  const ran: Partial<Facts> = {
    ...common,
    run_start_s: startS,
    run_s: endS - startS,
    ...(changedS > startS ? { run_since_change_s: Math.max(0, endS - changedS) } : {}),
  };
  if (isHeating(series, run)) return { ...ran, run_problem: 'heating' };
  if (columns.suction_pa === undefined && columns.liquid_pa === undefined) return { ...ran, run_problem: 'no-suction' };
  if (isAlwaysLow(columns)) return { ...ran, run_problem: 'pressure-unit' };
  const curve = knownSaturation(job?.refrigerant);
  if (curve === undefined) return { ...ran, run_problem: 'unknown-refrigerant' };
  if (endS - Math.max(startS, changedS) < stabilisingS) return { ...ran, run_problem: 'short' };
  const steady = steadyRun(series, run, changedS, curve);
  if (steady === undefined) return { ...ran, run_problem: 'not-steady' };
  // Where no source says so, the air tells: it is warmed.
  if (steady.splitK < -warmedK) return { ...ran, run_problem: 'heating' };
  const isOffCurve =
    (!Number.isNaN(steady.suctionPa) && Number.isNaN(steady.dewK)) ||
    (!Number.isNaN(steady.liquidPa) && Number.isNaN(steady.bubbleK));
  const fault = isOffCurve ? 'off-curve' : runFault(series, steady, job);
  const means = { ...ran, ...meanFacts(series, steady) };
  if (fault !== undefined) return { ...means, run_problem: fault };
  return { ...means, ...differenceFacts(steady, job), ...targetFacts(steady, job) };
}

/** Whether no pressure of a log in which the system ran is ever above the air by as much again: another unit, not a vacuum. */
export function isAlwaysLow({ suction_pa: suctionPa, liquid_pa: liquidPa }: RunSeries['columns']): boolean {
  let highestPa = Number.NEGATIVE_INFINITY;
  for (const column of [suctionPa, liquidPa]) for (const pa of column ?? []) if (pa > highestPa) highestPa = pa;
  return highestPa < lowestRunPa;
}

/** What the record says of valve, line and speed, as far as the judgement goes by them. */
function kindFacts(job: MeasuredRecords['job']): Partial<Facts> {
  const metering = job?.metering;
  return {
    ...(metering === undefined
      ? {}
      : { metering_kind: metering === 'fixed' || metering === 'capillary' ? ('fixed' as const) : ('valve' as const) }),
    ...(job?.compressor === 'variable'
      ? { run_speed: job.fixed_test_mode ? ('fixed' as const) : ('free' as const) }
      : {}),
    ...(job?.metering_location === 'outdoor' ? { liquid_line_phase: 'two-phase' as const } : {}),
  };
}

function isHeating({ mode }: RunSeries, { fromRow, toRow }: RunningStretch): boolean {
  if (mode === undefined) return false;
  const cooling = runModes.indexOf('cooling') + 1;
  let other = 0;
  for (let row = fromRow; row <= toRow; row += 1) if (mode[row] > 0 && mode[row] !== cooling) other += 1;
  return other > (toRow - fromRow + 1) / 10;
}

function meanFacts({ elapsedS }: RunSeries, steady: SteadyRun): Partial<Facts> {
  const known = (name: keyof Facts, value: number) => (Number.isNaN(value) ? {} : { [name]: value });
  return {
    steady_start_s: elapsedS[steady.window.fromRow],
    steady_end_s: elapsedS[steady.window.toRow - 1],
    ...known('run_suction_pa', steady.suctionPa),
    ...known('run_liquid_pa', steady.liquidPa),
    ...known('run_dew_k', steady.dewK),
    ...known('run_bubble_k', steady.bubbleK),
    ...known('run_suction_line_k', steady.suctionLineK),
    ...known('run_liquid_line_k', steady.liquidLineK),
    ...known('run_outdoor_k', steady.outdoorK),
    ...known('run_indoor_k', steady.indoorK),
    ...known('run_indoor_wet_bulb_k', steady.wetBulbK),
    ...known('run_split_k', steady.splitK),
    ...known('run_compressor_w', steady.compressorW),
  };
}

/** Superheat from the dew point, subcooling from the bubble point; neither where a reading is missing. */
function differenceFacts(steady: SteadyRun, job: MeasuredRecords['job']): Partial<Facts> {
  const superheatK = steady.suctionLineK - steady.dewK;
  const isLiquid = job?.metering_location !== 'outdoor';
  const subcoolingK = isLiquid ? steady.bubbleK - steady.liquidLineK : Number.NaN;
  const ends = (of: 'superheat' | 'subcooling', differenceK: number) => {
    const halfK = 1.96 * saturationDifferenceUncertainty(steady, job, of === 'superheat' ? 'suction' : 'liquid');
    // Near the end of the saturation curve there is none.
    return Number.isNaN(halfK) ? {} : { [`${of}_low_k`]: differenceK - halfK, [`${of}_high_k`]: differenceK + halfK };
  };
  return {
    ...(Number.isNaN(superheatK) ? {} : { superheat_k: superheatK, ...ends('superheat', superheatK) }),
    ...(Number.isNaN(subcoolingK) ? {} : { subcooling_k: subcoolingK, ...ends('subcooling', subcoolingK) }),
  };
}

/** Standard uncertainty of superheat or subcooling [K], by gauge, clamp and the air around it. */
function saturationDifferenceUncertainty(
  steady: SteadyRun,
  job: MeasuredRecords['job'],
  side: 'suction' | 'liquid',
): number {
  const curve = knownSaturation(job?.refrigerant);
  if (curve === undefined) return Number.NaN;
  const pa = side === 'suction' ? steady.suctionPa : steady.liquidPa;
  const uncertaintyPa = pressureUncertainty(job, side, pa);
  const saturationK = (at: number) => (side === 'suction' ? curve.dewK(at) : curve.bubbleK(at));
  const gaugeK = (saturationK(pa + uncertaintyPa) - saturationK(pa - uncertaintyPa)) / 2;
  const lineK = side === 'suction' ? steady.suctionLineK : steady.liquidLineK;
  return Math.hypot(gaugeK, clampUncertainty(job), airUncertainty(lineK, steady.outdoorK));
}

function targetFacts({ wetBulbK, outdoorK }: SteadyRun, job: MeasuredRecords['job']): Partial<Facts> {
  const isFixed = job?.metering === 'fixed' || job?.metering === 'capillary';
  const tableK = isFixed ? targetSuperheat(wetBulbK, outdoorK) : undefined;
  const superheatK = job?.target_superheat_k ?? tableK;
  return {
    ...(superheatK === undefined
      ? {}
      : {
          target_superheat_k: superheatK,
          target_superheat_basis: job?.target_superheat_k === undefined ? ('table' as const) : ('record' as const),
        }),
    ...(job?.target_subcooling_k === undefined ? {} : { target_subcooling_k: job.target_subcooling_k }),
  };
}
