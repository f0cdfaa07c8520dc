import { nitrogenPressureAfter } from '../../physics/nitrogen-pressure-after.ts';
import type { Facts } from '../../records/tables/facts.ts';
import { mostPressurePa, type PressureSeries } from '../../traces/pressure-series.ts';
import { type ClampedSeries, clampedReadings } from './clamped-readings.ts';
import { followingSpread, leastClampK } from './hold-covariance.ts';
import { holdMeans } from './hold-means.ts';
import { nitrogenPaPerK } from './nitrogen-pa-per-k.ts';

/** What a tight system would have shown over a hold. */
export interface TightCourse {
  /** The judged readings at which the pipe's temperature is known. */
  readonly judged: ClampedSeries;
  /** Share of the pipe's changes that the gas went along with. */
  readonly followingRatio: number;
  /** What a tight system would have shown where the pipe was that warm [K], absolute [Pa]. */
  readonly pressureAt: (lineK: number) => number;
}

/** More than this no gas goes along with a pipe. Common practice, no source. */
const mostFollowing = 1.5;
/** Neighbouring means err alike: so many of them tell as much as one. Common practice, no source. */
const alike = 7;

/**
 * What a tight system would have shown by the temperature of the pipe, for drawing beside what was read.
 *
 * A part of the gas may stand elsewhere than the pipe that the clamp sits on, so that the whole of it follows the pipe by
 * less; the drop allows for that, and where the curve did not, it would show a drop or a rise that nobody claims. With the
 * corrected drop given, pressure and share are those that the readings fit best; the share is 1 unless they tell.
 *
 * @param facts of the same series
 * @returns undefined where there is no corrected drop
 */
export function tightCourse(series: PressureSeries, facts: Partial<Facts>): TightCourse | undefined {
  const { pressure_drop_pa: dropPa, pressure_settled_s: settledS, pressure_hold_end_s: endS } = facts;
  if (dropPa === undefined || settledS === undefined || endS === undefined) return undefined;
  const fromIndex = series.elapsedS.findIndex((atS) => atS >= settledS);
  const toIndex = series.elapsedS.findLastIndex((atS) => atS <= endS);
  if (fromIndex < 0 || toIndex <= fromIndex) return undefined;
  const judged = clampedReadings(series, fromIndex, toIndex);
  if (judged === undefined) return undefined;
  const { sinceS, testPa, lineK, lastedS } = holdMeans(judged);
  const keptPa = testPa.map((pa, at) => pa + (dropPa * sinceS[at]) / lastedS);
  const [meanPa, meanK] = [mean(keptPa), mean(lineK)];
  if (!(meanPa > 0 && meanPa <= mostPressurePa)) return undefined;
  const perK = nitrogenPaPerK(meanPa, meanK);
  const byPipePa = lineK.map((kelvin) => perK * (kelvin - meanK));
  const beside = keptPa.map((pa, at) => pa - meanPa - byPipePa[at]);
  const squares = sumOf(byPipePa, byPipePa);
  const product = sumOf(byPipePa, beside);
  const freely = squares > 0 ? product / squares : 0;
  const left = beside.map((pa, at) => pa - freely * byPipePa[at]);
  const errorPa2 = sumOf(left, left) / left.length + (perK * leastClampK) ** 2;
  const likely = (alike * errorPa2) / followingSpread ** 2;
  const followed = 1 + (squares > 0 ? product / (squares + likely) : 0);
  const followingRatio = Math.min(mostFollowing, Math.max(0, followed));
  return {
    judged,
    followingRatio,
    pressureAt: (kelvin) =>
      nitrogenPressureAfter({ startPa: meanPa, startK: meanK, endK: meanK + followingRatio * (kelvin - meanK) }),
  };
}

const mean = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0) / values.length;

const sumOf = (some: Float64Array, others: Float64Array) =>
  some.reduce((sum, value, at) => sum + value * others[at], 0);
