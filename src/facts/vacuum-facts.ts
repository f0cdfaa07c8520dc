import { median } from '../numerics/median.ts';
import { medianOfThree } from '../numerics/median-of-three.ts';
import type { Facts } from '../records/tables/facts.ts';
import { fewestReadings, findVacuumPhases, type VacuumPhase } from '../traces/vacuum-phases.ts';
import { usable, type VacuumSeries } from '../traces/vacuum-series.ts';
import { gaugeAccuracy, usualAccuracyRatio } from './gauge-accuracy.ts';
import { holdAtOrBelow, holdLadder } from './hold-ladder.ts';
import type { VacuumMaterial } from './job-material.ts';
import { lineFacts } from './line-facts.ts';
import { lastPull } from './pull-down/last-pull.ts';
import { pullDownProfile } from './pull-down/pull-down-profile.ts';
import { pumpingFacts } from './pull-down/pumping-facts.ts';
import { waterStall } from './pull-down/water-stall.ts';
import { foundIsolation } from './rise/found-isolation.ts';
import { riseFacts } from './rise/rise-facts.ts';
import { riseLadder } from './rise/rise-ladder.ts';
import { type TestedVolume, testedVolume, testedVolumeFacts } from './tested-volume.ts';

/** Target where the job records none [Pa]: 500 µm, common practice, no source. It only tells hold from pull-down. */
export const usualTargetPa = 500 * 0.133322368;
// Common practice, no source.
/** A hold that may hide an isolation is level for so long at least [s] … */
const hidingS = 300;
/** … its pressure falling by no more than this ratio. */
const hidingFall = 0.15;

/**
 * What the vacuum log of a job shows: last pull, hold, isolation, rise.
 *
 * @param series the one that judges, where it is known already
 */
export function vacuumFacts(material: VacuumMaterial, series = judgedSeries(material)): Partial<Facts> {
  if (series === undefined) return {};
  const { vacuumPa, gauge } = series;
  const accuracy = gaugeAccuracy(material);
  const common: Partial<Facts> = {
    vacuum_readings: vacuumPa.length,
    ...(gauge === null ? {} : { vacuum_gauge: gauge }),
    ...(accuracy === undefined ? {} : { gauge_accuracy_ratio: accuracy }),
    marked: material.marks.some((mark) => mark.phase !== null),
  };
  if (material.gauge?.kind === 'compound') return { ...common, vacuum_problem: 'compound-gauge' };
  if (vacuumPa.length < fewestReadings) return { ...common, vacuum_problem: 'too-few-readings' };
  const targetPa = material.job?.vacuum_target_pa;
  const { phases, pulls } = findVacuumPhases(series, targetPa ?? usualTargetPa, material.marks);
  const volume = testedVolume(material);
  const pull = pullFacts(series, phases, targetPa);
  // On a tight, dry system nothing shows that the valve was shut: a long level stretch without marks may hide it.
  const hidden = !common.marked && (pull.hold_s ?? 0) >= hidingS && endsLevel(series, phases);
  return {
    ...common,
    pulls,
    ...testedVolumeFacts(material),
    ...lineFacts(material.line),
    ...pull,
    ...lastPullFacts(series, phases, material, volume),
    rise_shape: hidden ? 'undecided' : 'absent',
    ...isolationFacts(series, phases, material, accuracy ?? usualAccuracyRatio),
  };
}

/** The series that judges: the gauge that the record names, else the first by name that has usable readings. */
export function judgedSeries({ job, series }: Pick<VacuumMaterial, 'job' | 'series'>): VacuumSeries | undefined {
  const all = series.map(usable).filter((candidate) => candidate.vacuumPa.length > 0);
  const named = all.find((candidate) => candidate.gauge !== null && candidate.gauge === job?.gauge_id);
  return named ?? all.sort((a, b) => ((a.gauge ?? '') < (b.gauge ?? '') ? -1 : 1))[0];
}

/** Whether the last pumped stretch ends level, so that an isolation could hide in it. */
function endsLevel({ elapsedS, vacuumPa }: VacuumSeries, phases: readonly VacuumPhase[]): boolean {
  const last = phases.findLast(({ phase }) => phase === 'pull-down' || phase === 'hold');
  if (last === undefined) return false;
  let from = last.toIndex;
  while (from > last.fromIndex && elapsedS[from] > elapsedS[last.toIndex] - hidingS) from -= 1;
  const level = (index: number) => median(vacuumPa.subarray(Math.max(last.fromIndex, index - 4), index + 1));
  return level(last.toIndex) > level(from) * (1 - hidingFall);
}

/** How fast the last pull went, and whether it stood still where water boils. */
function lastPullFacts(
  series: VacuumSeries,
  phases: readonly VacuumPhase[],
  material: VacuumMaterial,
  volume: TestedVolume | undefined,
): Partial<Facts> {
  const pull = lastPull(phases);
  if (pull === undefined) return {};
  const profile = pullDownProfile(series, pull);
  const seenPa = profile.seenIndex <= pull.toIndex ? series.vacuumPa[profile.seenIndex] : Number.POSITIVE_INFINITY;
  return {
    ...(seenPa < Number.POSITIVE_INFINITY ? { first_seen_pa: Math.min(seenPa, 200_000) } : {}),
    ...pumpingFacts(series, pull, profile, material, volume, material.job?.vacuum_target_pa ?? usualTargetPa),
    ...waterStall(series, pull, profile, material),
  };
}

function pullFacts(series: VacuumSeries, phases: readonly VacuumPhase[], targetPa: number | undefined): Partial<Facts> {
  const { vacuumPa } = series;
  const deepest = lowestMedian(vacuumPa);
  const facts: Partial<Facts> = deepest === Number.POSITIVE_INFINITY ? {} : { deepest_pa: deepest };
  const pumped = phases.filter((phase) => phase.phase === 'pull-down' || phase.phase === 'hold');
  const last = pumped.at(-1);
  if (last === undefined) return facts;
  const pull = pumped.findLast((phase) => phase.phase === 'pull-down');
  const next = phases[phases.indexOf(last) + 1];
  const ladder = holdLadder(series, pull?.fromIndex ?? last.fromIndex, last.toIndex, targetPa);
  return {
    ...facts,
    ...(pull === undefined ? {} : { pull_down_start_s: pull.startS }),
    hold_s: holdAtOrBelow(ladder, targetPa ?? usualTargetPa) ?? 0,
    ...(last.turnsUp ? { turns_up: true } : {}),
    pumped_until: next === undefined ? 'log-end' : next.phase === 'isolation' ? 'isolation' : 'break',
    hold_ladder: JSON.stringify(ladder),
  };
}

/** The lowest median of three readings in a row: one low reading is noise. */
function lowestMedian(vacuumPa: Float64Array): number {
  let lowest = Number.POSITIVE_INFINITY;
  for (let i = 1; i < vacuumPa.length - 1; i += 1) {
    const before = vacuumPa[i - 1];
    const at = vacuumPa[i];
    // A median is below only where two of the three are; this leaves out nearly all.
    if (before >= lowest && at >= lowest) continue;
    lowest = Math.min(lowest, medianOfThree(before, at, vacuumPa[i + 1]));
  }
  return lowest;
}

function isolationFacts(
  series: VacuumSeries,
  phases: readonly VacuumPhase[],
  material: VacuumMaterial,
  accuracyRatio: number,
): Partial<Facts> {
  const isolation = foundIsolation(series, phases);
  if (isolation === undefined) return {};
  const { phase, lastIndex, isolationPa, endPa } = isolation;
  const { startS, endS, startLowS, startHighS, basis, fromIndex } = phase;
  return {
    isolation_start_s: startS,
    isolation_end_s: endS,
    isolation_start_low_s: startLowS,
    isolation_start_high_s: startHighS,
    isolation_basis: basis,
    isolation_pa: isolationPa,
    isolation_end_pa: endPa,
    rise_pa: endPa - isolationPa,
    ...(lastIndex < phase.toIndex ? { isolation_over: true } : {}),
    ...riseFacts(series, isolation, material, accuracyRatio),
    rise_ladder: JSON.stringify(riseLadder(series, fromIndex, lastIndex, startS, material.job?.rise_test_s)),
  };
}
