import { median } from '../../numerics/median.ts';
import { mixtureQuantile } from '../../numerics/mixture-quantile.ts';
import type { NormalPart } from '../../numerics/normal-distribution.ts';
import { nitrogenPressureAfter } from '../../physics/nitrogen-pressure-after.ts';
import type { Facts } from '../../records/tables/facts.ts';
import { endReadings, type PressureHold, pressureHolds, underPressurePa } from '../../traces/pressure-holds.ts';
import { usualStepPa } from '../../traces/pressure-moves.ts';
import { type PressureSeries, usablePressure } from '../../traces/pressure-series.ts';
import { withoutSpikes, withoutWild } from '../../traces/without-spikes.ts';
import { longestGap, mostUnseenS } from '../longest-gap.ts';
import type { MeasuredRecords } from '../job-material.ts';
import { siteAtmosphere } from '../site-atmosphere.ts';
import { type ClampedSeries, clampedReadings } from './clamped-readings.ts';
import { dropModel } from './drop-model.ts';
import { leastClampK } from './hold-covariance.ts';
import { type HoldMeans, holdMeans, mostOffK } from './hold-means.ts';
import { judgedHold } from './judged-hold.ts';
import { nitrogenPaPerK } from './nitrogen-pa-per-k.ts';
import { settlingTime } from './settling-time.ts';
import { smallestDrop, sureShare } from './smallest-drop.ts';

/** What the facts of a standing pressure test rest on. */
export interface PressureTestMaterial extends Pick<MeasuredRecords, 'job'> {
  readonly series: PressureSeries;
}

// Common practice, no source; set on simulated tests (tests/truth).
/** A hold of which the log leaves out more than this share in one piece is not judged. */
const mostHiddenShare = 0.3;
/** As many holds as the facts can count. */
const mostHolds = 1000;
/** Of fewer readings there is no first and last. */
const fewestReadings = 2;
/** Accuracy of a clamp that nothing is recorded of [K]. */
const usualClampAccuracyK = 1;
/** The smallest change of few readings is no step of a gauge: none is coarser [Pa], 5 psi. */
const coarsestStepPa = 34_474;
/** A drop is no better known than this ratio of it: the gauge's own gain, temperatures that differ, a leak that slackens. */
const scaleRatio = 0.015;
/** Where no clamp was read, the correction is for this [K]: 70 °F, common practice, no source. */
const usualLineK = 294.26;

/** What the standing pressure test of a job shows: its last hold at full pressure, corrected for temperature. */
export function pressureTestFacts({ job, series: logged }: PressureTestMaterial): Partial<Facts> {
  const series = usablePressure(logged);
  const { elapsedS, testPa } = series;
  if (testPa.length === 0) return {};
  const atmospherePa = siteAtmosphere(job);
  const common: Partial<Facts> = { pressure_readings: testPa.length, atmosphere_pa: atmospherePa };
  if (testPa.length < fewestReadings) return { ...common, pressure_problem: 'too-few-readings' };
  const holds = pressureHolds(series, atmospherePa);
  const hold = judgedHold(holds, atmospherePa, {
    targetPa: job?.test_pressure_target_pa,
    askedS: job?.test_pressure_hold_s,
  });
  const seen: Partial<Facts> = {
    ...common,
    highest_test_pa: highest(series),
    pressure_stages: Math.min(mostHolds, holds.length),
  };
  if (hold === undefined) {
    const isBelowAir = (seen.highest_test_pa ?? 0) < atmospherePa + underPressurePa;
    const isCut = testPa[testPa.length - 1] > atmospherePa + underPressurePa;
    return { ...seen, pressure_problem: isBelowAir ? 'below-air' : isCut ? 'cut' : 'never-held' };
  }
  const held: Partial<Facts> = { ...seen, pressure_hold_start_s: hold.startS, pressure_hold_end_s: hold.endS };
  const from = settledFrom(series, hold);
  const clamped = clampedReadings(series, from, hold.toIndex);
  const ends = endFacts(clamped ?? unclampedReadings(series, from, hold.toIndex), atmospherePa);
  if (hasGap(elapsedS, hold)) return { ...held, ...ends, pressure_problem: 'gap' };
  return { ...held, ...ends, ...(clamped === undefined ? {} : dropFacts(clamped, hold, job)) };
}

function unclampedReadings({ elapsedS, testPa }: PressureSeries, from: number, to: number): PressureSeries {
  return { elapsedS: elapsedS.subarray(from, to + 1), testPa: testPa.subarray(from, to + 1) };
}

/** First reading that is judged: the settling after the filling is left out. */
function settledFrom({ elapsedS }: PressureSeries, { fromIndex, toIndex, startS, endS }: PressureHold): number {
  const settledS = startS + settlingTime(endS - startS);
  let from = fromIndex;
  while (from < toIndex - 1 && elapsedS[from] < settledS) from += 1;
  return from;
}

/** Whether the log leaves out too much of the hold, though it is not read that seldom. */
function hasGap(elapsedS: Float64Array, { fromIndex, toIndex, startS, endS }: PressureHold): boolean {
  const gapS = longestGap(elapsedS, fromIndex, toIndex);
  const usualS = (endS - startS) / (toIndex - fromIndex);
  return gapS > mostUnseenS && gapS > mostHiddenShare * (endS - startS) && gapS > 3 * usualS;
}

/** Pressures and temperatures at both ends of the judged readings. */
function endFacts({ elapsedS, testPa, lineK }: PressureSeries, atmospherePa: number): Partial<Facts> {
  const some = Math.min(endReadings, Math.max(1, Math.floor((testPa.length - 1) / 4)));
  const ends = (of: Float64Array) => [median(of.subarray(0, some)), median(of.subarray(of.length - some))];
  const [heldPa, endPa] = ends(testPa);
  const facts: Partial<Facts> = {
    pressure_settled_s: elapsedS[0],
    held_test_pa: heldPa,
    end_test_pa: endPa,
    read_drop_pa: heldPa - endPa,
  };
  // A gauge that dropped out to nothing tells of no gas to correct.
  if (!(heldPa > atmospherePa)) return facts;
  if (lineK === undefined) return { ...facts, ...coolingFacts(heldPa, endPa) };
  const tameK = withoutWild(lineK, () => mostOffK);
  const [heldK, endK] = ends(tameK);
  let coldestK = tameK[0];
  let warmestK = tameK[0];
  for (let at = 1; at < tameK.length; at += 1) {
    coldestK = Math.min(coldestK, tameK[at]);
    warmestK = Math.max(warmestK, tameK[at]);
  }
  return {
    ...facts,
    held_line_k: heldK,
    end_line_k: endK,
    coldest_line_k: coldestK,
    warmest_line_k: warmestK,
    expected_end_test_pa: nitrogenPressureAfter({ startPa: heldPa, startK: heldK, endK }),
  };
}

/** By how much the gas would have to have cooled to explain a drop that was read without a temperature. */
function coolingFacts(heldPa: number, endPa: number): Partial<Facts> {
  const explaining_cooling_k = (heldPa - endPa) / nitrogenPaPerK(heldPa, usualLineK);
  return Math.abs(explaining_cooling_k) > 300 ? {} : { explaining_cooling_k };
}

/** The corrected drop over what is judged, with its interval and what could have been seen. */
function dropFacts(judged: ClampedSeries, hold: PressureHold, job: PressureTestMaterial['job']): Partial<Facts> {
  const means = holdMeans(judged);
  const meanPa = means.testPa.reduce((sum, pa) => sum + pa, 0) / means.testPa.length;
  if (means.sinceS.length < 2 || !(meanPa > siteAtmosphere(job))) return {};
  const fall = fallOf(means, {
    // A log that begins under pressure began after the filling.
    settledForS: judged.elapsedS[0] - hold.startS + (hold.isFilled ? 0 : settlingTime(Number.POSITIVE_INFINITY)),
    stepPa: Math.min(coarsestStepPa, means.gauge.step || usualStepPa),
    accuracyK: Math.max(leastClampK, job?.clamp_accuracy_k ?? usualClampAccuracyK),
  });
  if (fall.length === 0) return {};
  // To the end of the hold, though the clamp may have been read for the last time a little before.
  const judgedS = hold.endS - judged.elapsedS[0];
  const own = fall.map(({ weight, mean, deviation }) => ({
    weight,
    mean: mean * judgedS,
    deviation: deviation * judgedS,
  }));
  const drop = own.map((part) => ({ ...part, deviation: Math.hypot(part.deviation, scaleRatio * part.mean) }));
  const total = drop.reduce((sum, { weight }) => sum + weight, 0);
  return {
    pressure_drop_pa: drop.reduce((sum, { weight, mean }) => sum + weight * mean, 0) / total,
    pressure_drop_low_pa: mixtureQuantile(drop, 0.025),
    pressure_drop_high_pa: mixtureQuantile(drop, 0.975),
    pressure_drop_sure_pa: mixtureQuantile(drop, sureShare),
    smallest_drop_seen_pa: smallestDrop(own),
  };
}

function fallOf(means: HoldMeans, options: { settledForS: number; stepPa: number; accuracyK: number }): NormalPart[] {
  const { lineK } = means;
  const n = means.sinceS.length;
  const meanK = lineK.reduce((sum, kelvin) => sum + kelvin, 0) / n;
  const meanPa = means.testPa.reduce((sum, pa) => sum + pa, 0) / n;
  const perK = nitrogenPaPerK(meanPa, meanK);
  const warmerK = lineK.map((kelvin) => kelvin - meanK);
  const correctedPa = means.testPa.map((pa, at) => pa - perK * (pa / meanPa) * warmerK[at]);
  return dropModel({ means, correctedPa, warmerK, paPerK: perK, testPa: meanPa, ...options });
}

/** The highest pressure; a single wild reading is none. */
function highest({ elapsedS, testPa }: PressureSeries): number {
  const clean = withoutSpikes(elapsedS, testPa);
  let high = 0;
  for (let at = 0; at < clean.length; at += 1) high = Math.max(high, clean[at]);
  return high;
}
