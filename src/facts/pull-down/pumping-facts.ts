import type { Facts } from '../../records/tables/facts.ts';
import type { VacuumSeries } from '../../traces/vacuum-series.ts';
import type { MeasuredRecords } from '../job-material.ts';
import type { LastPull } from './last-pull.ts';
import { longestGap } from '../longest-gap.ts';
import { predictedPullDown, pumpFloorPa } from './predicted-pull-down.ts';
import { type PullDownProfile, rungsPa, rungsPerOctave } from './pull-down-profile.ts';
import { siteAtmosphere } from '../site-atmosphere.ts';
import type { TestedVolume } from '../tested-volume.ts';

// What follows is common practice, no source.
/** The rough range ends here [Pa] … */
const roughToPa = 300;
/** … and no nearer to the deepest than this ratio: there what is given off counts beside what is pumped. */
const aboveDeepest = 3;
/** The stretch that tells the speed spans at least an octave … */
const fewestRungs = rungsPerOctave;
/** … and so many readings, … */
const fewestReadings = 3;
/** … with no gap longer than this share of it: a gap may hide that the pump was shut off, or a break. */
const mostGapShare = 0.5;
/** Gaps up to this [s] leave a pull-down in sight, however short it was. */
const shortGapS = 60;
/** A log whose first reading is below this ratio of the atmosphere began in the midst of its pull. */
const startRatio = 0.5;

/**
 * How fast the last pull went, beside what pump, hose and cores predict for dry gas.
 *
 * The pull-down runs from the start of the last pull to the target; the prediction from the atmosphere, or from where a
 * pull began that did not begin there. Where the gauge's range begins below the atmosphere the first seconds are not
 * seen, and the measured time is short by them. The speeds are d ln(p − floor)/dt between two pressures of the rough
 * range, with the same floor for both (`pumpFloorPa`); water that boils off between them, a leak, or a gauge too slow
 * for a fast pump make the measured one less. With the gauge at the pump both are of the pressure there. The prediction
 * takes the volume's middle: it is no surer than the volume.
 *
 * @param profile of the same pull
 * @param targetPa the job's target, or the one that stands in for it [Pa]
 */
export function pumpingFacts(
  series: VacuumSeries,
  pull: LastPull,
  profile: PullDownProfile,
  { job }: MeasuredRecords,
  volume: TestedVolume | undefined,
  targetPa: number,
): Partial<Facts> {
  const atmospherePa = siteAtmosphere(job);
  const table = predictedPullDown(job);
  const problem = typeof table === 'string' ? table : volume === undefined ? ('no-volume' as const) : undefined;
  const predictedS = (fromPa: number, toPa: number) => {
    if (typeof table === 'string' || volume === undefined) return undefined;
    const [fromSystemPa, toSystemPa] =
      job?.gauge_position === 'pump' ? [table.systemPa(fromPa), table.systemPa(toPa)] : [fromPa, toPa];
    const seconds = (volume.volumeL / 1000) * table.secondsPerM3(Math.min(fromSystemPa, atmospherePa), toSystemPa);
    return seconds > 0 && seconds < Number.POSITIVE_INFINITY ? seconds : undefined;
  };
  const startPa = pullStart(series, pull, atmospherePa);
  const pullDownS = startPa === undefined ? undefined : pullDownTime(series, pull, startPa, targetPa);
  const pullDownPredictedS = predictedS(startPa ?? atmospherePa, targetPa);
  const facts: Partial<Facts> = {
    ...(pullDownS === undefined ? {} : { pull_down_s: pullDownS }),
    ...(pullDownPredictedS === undefined ? {} : { pull_down_predicted_s: pullDownPredictedS }),
  };
  const stretch = roughStretch(series, profile);
  if (stretch === undefined) return { ...facts, prediction_problem: problem ?? 'not-seen' };
  const { fromPa, toPa, tookS } = stretch;
  const logs = Math.log((fromPa - pumpFloorPa) / (toPa - pumpFloorPa));
  const predictedTookS = predictedS(fromPa, toPa);
  return {
    ...facts,
    pumped_from_pa: fromPa,
    pumped_to_pa: toPa,
    pump_rate_per_s: logs / tookS,
    ...(predictedTookS === undefined
      ? { prediction_problem: problem ?? 'not-seen' }
      : { predicted_pump_rate_per_s: logs / predictedTookS }),
  };
}

/** The atmosphere at the site [Pa]: by the barometer, else by the altitude, else that of sea level. */
/** Pressure at which the pull began [Pa]; undefined where the log begins in its midst. */
function pullStart({ vacuumPa }: VacuumSeries, { fromIndex }: LastPull, atmospherePa: number): number | undefined {
  const startPa = Math.min(vacuumPa[fromIndex], atmospherePa);
  return fromIndex === 0 && startPa < startRatio * atmospherePa ? undefined : startPa;
}

/** Time from the start of the pull to the target [s]; undefined where it was not reached, or where a gap may hide it. */
function pullDownTime(
  { elapsedS }: VacuumSeries,
  { startS, targetS, fromIndex, targetIndex }: LastPull,
  startPa: number,
  targetPa: number,
): number | undefined {
  if (targetS === undefined || targetIndex === undefined || startPa <= targetPa) return undefined;
  const tookS = targetS - startS;
  return longestGap(elapsedS, fromIndex, targetIndex) <= Math.max(shortGapS, mostGapShare * tookS) ? tookS : undefined;
}

/** The widest stretch of the rough range that the log shows. */
function roughStretch(
  { elapsedS }: VacuumSeries,
  { from, to, reachedS, index }: PullDownProfile,
): { fromPa: number; toPa: number; tookS: number } | undefined {
  if (to < from) return undefined;
  const leastPa = Math.max(roughToPa, aboveDeepest * rungsPa[to]);
  let last = to;
  while (last > from && rungsPa[last] < leastPa) last -= 1;
  const tookS = reachedS[last] - reachedS[from];
  if (last - from < fewestRungs || index[last] - index[from] < fewestReadings || !(tookS > 0)) return undefined;
  if (longestGap(elapsedS, index[from] - 1, index[last]) > mostGapShare * tookS) return undefined;
  return { fromPa: rungsPa[from], toPa: rungsPa[last], tookS };
}
