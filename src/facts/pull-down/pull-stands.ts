import type { VacuumSeries } from '../../traces/vacuum-series.ts';
import type { LastPull } from './last-pull.ts';
import { longestGap } from '../longest-gap.ts';
import { type PullDownProfile, rungsPa, rungsPerOctave } from './pull-down-profile.ts';

// What follows is common practice, no source; simulated evacuations set the values.
/** A stand lasts at least so long [s], shows in so many readings, and no gap of the log makes up more of it than this. */
const leastS = 20;
const fewestReadings = 3;
const mostGapShare = 0.5;
/** Neighbouring rungs belong to a stand where they took at least this share of its slowest. */
const slowShare = 1 / 8;
/** The pressure falls so many times slower in a stand than in the octave before it, and in the octave after it. */
const slowerThanBefore = 3;
const slowerThanAfter = 4;
/** An octave counts from so many rungs on. */
const fewestRungs = rungsPerOctave / 2;
/** Over its halves a stand rises by no more than this ratio: where a valve is shut for a while, it may. */
const mostRise = 1.02;
/** Readings so far off the rungs of a stand are not of it. */
const spikeRatio = 1.2;

/** A stand of the falling pressure. */
export interface PullStand {
  readonly startS: number;
  readonly lastsS: number;
  /** Mean pressure in it [Pa]. */
  readonly standsPa: number;
}

/**
 * Every stand of a pull, from the highest pressure to the lowest: the falling pressure stands, and then falls on as fast
 * as the pump takes it.
 *
 * Nothing but a source that runs out makes a pull do so: choking hoses, tails near the target and leaks only ever slow it
 * down. A stand to the very end of the pumping is none: a leak holds the pressure as well. A valve shut for a while in
 * the midst of a pull looks the same, unless the pressure rises meanwhile.
 *
 * @param profile of the same pull
 * @param leastPa stands further below do not matter [Pa]
 */
export function* pullStands(
  series: VacuumSeries,
  pull: LastPull,
  profile: PullDownProfile,
  leastPa: number,
): Generator<PullStand> {
  const { from, to, seenS, reachedS } = profile;
  const endS = series.elapsedS[pull.toIndex];
  // The stretch above the first rung, from the first reading within the range, counts as a rung too: number `from - 1`.
  const startOf = (rung: number) => (rung < from ? seenS : rung > to ? endS : reachedS[rung]);
  const tookS = (rung: number) => startOf(rung + 1) - startOf(rung);
  for (let peak = from - 1; peak <= to; peak += 1) {
    if (peak >= 0 && rungsPa[peak] * spikeRatio < leastPa) return;
    const peakS = tookS(peak);
    if (peakS < leastS / 4) continue;
    if ((peak >= from && tookS(peak - 1) >= peakS) || (peak < to && tookS(peak + 1) > peakS)) continue;
    let first = peak;
    while (first >= from && tookS(first - 1) >= slowShare * peakS) first -= 1;
    let last = peak;
    while (last < to && tookS(last + 1) >= slowShare * peakS) last += 1;
    const lastsS = startOf(last + 1) - startOf(first);
    if (lastsS < leastS) continue;
    const perRungS = lastsS / (last - first + 1);
    const before = Math.min(rungsPerOctave, first - from);
    const beforeS = before < fewestRungs ? undefined : (startOf(first) - startOf(first - before)) / before;
    if (beforeS !== undefined && perRungS < slowerThanBefore * beforeS) continue;
    const after = Math.min(rungsPerOctave, to - last - 1);
    const afterS = after < fewestRungs ? undefined : (startOf(last + 1 + after) - startOf(last + 1)) / after;
    if (afterS === undefined || perRungS < slowerThanAfter * afterS) continue;
    const standsPa = meanPressure(series, profile, first, last);
    if (standsPa !== undefined) yield { startS: startOf(first), lastsS, standsPa };
  }
}

/** Mean pressure of a stand over rungs; undefined where too little of it shows, or where the pressure rises in it. */
function meanPressure(
  { elapsedS, vacuumPa }: VacuumSeries,
  { from, seenIndex, index }: PullDownProfile,
  first: number,
  last: number,
): number | undefined {
  const fromIndex = first < from ? seenIndex : index[first];
  const toIndex = index[last + 1] - 1;
  if (longestGap(elapsedS, fromIndex, toIndex) > mostGapShare * (elapsedS[toIndex] - elapsedS[fromIndex]))
    return undefined;
  const middle = (fromIndex + toIndex) >> 1;
  const sums = [0, 0];
  const counts = [0, 0];
  for (let i = fromIndex; i <= toIndex; i += 1) {
    // Spikes, and readings above the range.
    if (vacuumPa[i] > spikeRatio * rungsPa[Math.max(first, 0)] || vacuumPa[i] * spikeRatio < rungsPa[last]) continue;
    const half = i > middle ? 1 : 0;
    sums[half] += vacuumPa[i];
    counts[half] += 1;
  }
  const count = counts[0] + counts[1];
  if (count < fewestReadings || sums[1] * counts[0] > mostRise * sums[0] * counts[1]) return undefined;
  return (sums[0] + sums[1]) / count;
}
