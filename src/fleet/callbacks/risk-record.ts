import { fitLogistic } from '../../numerics/penalised-logistic.ts';
import type { FleetJobs } from '../fleet-jobs.ts';
import { kaplanMeier, stepAt } from '../statistics/kaplan-meier.ts';
import { AgeHazard } from './age-hazard.ts';
import { RiskModel } from './callback-risk.ts';
import {
  followUpEnding,
  followUps,
  type FollowUps,
  type JobCourses,
  thinned,
  type WatchedPeriod,
} from './follow-up.ts';
import { choosePredictors } from './predictors.ts';

/** Days over which callbacks are foretold where nobody asks for others. */
export const usualWindowDays = 90;

/** Below so many callbacks nothing is said of what foretells them. */
export const fewestCallbacks = 30;
/** The record is looked back on at most so many times. */
const mostLooks = 6;
/** Jobs that are held against what came, each time. */
const mostJobs = 50_000;

/** Jobs of like risk: how many callbacks were expected over the days that they were watched, and how many came. */
export interface RiskGroup {
  readonly jobs: number;
  /** Mean chance that was given [ratio]. */
  readonly risk: number;
  readonly expected: number;
  readonly observed: number;
}

/** How risks that were given from what was known on a day compare to what came in the days after it. */
export interface RiskRecord {
  /** On so many days, ends of windows that do not overlap. */
  readonly looks: number;
  readonly jobs: number;
  readonly expected: number;
  readonly observed: number;
  /** Tenths of the jobs, the least risk first. */
  readonly tenths: readonly RiskGroup[];
  /** By how much the logit of the chance rises with the logit of the risk, with the 95 % interval: 1 where risks are as far apart as they should be. */
  readonly slope: { readonly slope: number; readonly low: number; readonly high: number } | null;
  /** Mean square of what came less what was expected; the same by the age of the jobs alone. */
  readonly brier: number;
  readonly baseBrier: number;
  /** Standard error of the difference of both. */
  readonly brierError: number;
}

/** A risk that was given, and what came of it. */
interface Forecast {
  /** Chance of a callback within the window, by the model and by the age of the job alone. */
  readonly risk: number;
  readonly base: number;
  /** Hazard that added up over the days that the job was watched. */
  readonly expected: number;
  readonly came: number;
  /** For how many it stands where it is told whether a callback came: others like it were worked on again before the window ended; else 0. */
  readonly weight: number;
}

/**
 * Looks back: on days before the end of the record, models are fitted to what was known then, and what they say of the jobs that were
 * open is held against what came. Nothing later is known to them.
 *
 * @param windowDays over which callbacks are foretold
 * @returns undefined where no such day had enough callbacks before it
 *
 * Source: calibration slope and table, textbook; `brier-1950`; `graf-1999` for jobs that were worked on again within the window.
 */
export function lookBack(
  jobs: FleetJobs,
  courses: JobCourses,
  period: WatchedPeriod,
  windowDays: number,
): RiskRecord | undefined {
  const looked: Forecast[][] = [];
  for (let look = 1; look <= mostLooks; look += 1) {
    const onDay = period.toDay - look * windowDays;
    const known = followUps(courses, { ...period, toDay: onDay });
    const callbacks = known.events.reduce((sum, event) => sum + event, 0);
    if (callbacks < fewestCallbacks) break;
    const model = RiskModel.fit(jobs, known, choosePredictors(jobs, known, callbacks).chosen);
    if (model === undefined) continue;
    const later = followUps(courses, { ...period, toDay: onDay + windowDays });
    looked.push(forecastsOn(onDay, model, thinned(known, mostJobs), later, courses, windowDays, period.horizonDays));
  }
  return looked.length === 0 ? undefined : { looks: looked.length, ...held(looked.flat()) };
}

/**
 * Whether anything speaks for a list: a finding that foretells callbacks beyond chance, unless earlier lists were worse by more than their
 * standard error than the age of the jobs alone; or earlier lists that were better by as much.
 *
 * @param record undefined where there is nothing to look back on
 */
export function speaksForList(record: RiskRecord | undefined, isForetold: boolean): boolean {
  if (record === undefined) return isForetold;
  return record.baseBrier - record.brier >= (isForetold ? -1 : 1) * record.brierError;
}

function forecastsOn(
  onDay: number,
  model: RiskModel,
  known: FollowUps,
  later: FollowUps,
  { doneDays }: JobCourses,
  windowDays: number,
  horizonDays: number,
): Forecast[] {
  const base = new AgeHazard(known);
  const rowOf = new Int32Array(doneDays.length).fill(-1);
  for (let row = 0; row < later.jobs.length; row += 1) rowOf[later.jobs[row]] = row;
  const open = Array.from(known.jobs).flatMap((job, at) => {
    const row = rowOf[job];
    if (known.endings[at] !== followUpEnding.stillWatched || row < 0) return [];
    const age = onDay - doneDays[job];
    return [
      { job, age, end: Math.min(horizonDays, age + windowDays), stop: later.stops[row], came: later.events[row] },
    ];
  });
  const isCut = Uint8Array.from(open, ({ stop, end, came }) => Number(came === 0 && stop < end));
  const uncut = kaplanMeier({ stops: Float64Array.from(open, ({ stop, age }) => stop - age), events: isCut });
  return open.map(({ job, age, end, stop, came }, at) => {
    const relative = model.relative(job);
    return {
      risk: -Math.expm1(-relative * model.common(age, end)),
      base: -Math.expm1(-base.between(age, end)),
      expected: relative * model.common(age, stop),
      came,
      weight: isCut[at] === 1 ? 0 : 1 / (stepAt(uncut, stop - age - 1)?.share ?? 1),
    };
  });
}

function held(forecasts: readonly Forecast[]): Omit<RiskRecord, 'looks'> {
  const sorted = forecasts.toSorted((a, b) => a.risk - b.risk);
  const { length } = sorted;
  const weights = sorted.reduce((sum, { weight }) => sum + weight, 0);
  const square = (of: (forecast: Forecast) => number): number =>
    sorted.reduce((sum, forecast) => sum + forecast.weight * (forecast.came - of(forecast)) ** 2, 0) / weights;
  return {
    jobs: length,
    ...sums(sorted),
    tenths: Array.from({ length: 10 }, (_, at) =>
      sorted.slice(Math.floor((at * length) / 10), Math.floor(((at + 1) * length) / 10)),
    ).map((group) => ({
      jobs: group.length,
      risk: group.reduce((sum, { risk }) => sum + risk, 0) / Math.max(1, group.length),
      ...sums(group),
    })),
    slope: slopeOf(sorted),
    brier: square(({ risk }) => risk),
    baseBrier: square(({ base }) => base),
    brierError: errorOfGain(sorted, weights),
  };
}

/** Standard error of how much smaller the mean square of the risks is than that of the base. */
function errorOfGain(forecasts: readonly Forecast[], weights: number): number {
  const gains = forecasts.map(({ came, base, risk, weight }) => weight * ((came - base) ** 2 - (came - risk) ** 2));
  const mean = gains.reduce((sum, gain) => sum + gain, 0) / gains.length;
  const squares = gains.reduce((sum, gain) => sum + (gain - mean) ** 2, 0);
  return Math.sqrt(squares) / weights;
}

function sums(group: readonly Forecast[]): { expected: number; observed: number } {
  return {
    expected: group.reduce((sum, { expected }) => sum + expected, 0),
    observed: group.reduce((sum, { came }) => sum + came, 0),
  };
}

const normal95 = 1.959964;

function slopeOf(forecasts: readonly Forecast[]): RiskRecord['slope'] {
  const told = forecasts.filter(({ risk, weight }) => weight > 0 && risk > 0 && risk < 1);
  const fit = fitLogistic(
    {
      width: 2,
      columns: Int32Array.from(told.flatMap(() => [0, 1])),
      values: Float64Array.from(told.flatMap(({ risk }) => [1, Math.log(risk / (1 - risk))])),
      successes: Float64Array.from(told, ({ came, weight }) => came * weight),
      trials: Float64Array.from(told, ({ weight }) => weight),
    },
    new Float64Array(2),
  );
  if (fit === undefined || !fit.isConverged) return null;
  const [slope, half] = [fit.coefficients[1], normal95 * Math.sqrt(fit.covariance[3])];
  return { slope, low: slope - half, high: slope + half };
}
