import type { VacuumSeries } from '../traces/vacuum-series.ts';
import { mostUnseenS } from './longest-gap.ts';

/** Pressures for which the time at or below them is kept [Pa]: those that published criteria and common practice name. */
const rungsPa: readonly number[] = [50, 100, 150, 200, 250, 300, 400, 500, 750, 1000, 1500, 2000, 5000].map(
  (micron) => micron * 0.133322368,
);

/** Rungs as [pressure Pa, time s], rising. */
export type HoldLadder = readonly (readonly [number, number])[];

/**
 * How long the pressure was at or below each of a ladder of pressures while the pump was connected. Facts know no policy;
 * with the ladder, any policy's target finds its hold.
 *
 * Time between two readings counts where both are at or below the rung, half of it where one is: a single noisy reading
 * above the target does not undo a hold. Of a gap in the log no more than five minutes count.
 *
 * @param fromIndex first reading of the last pull; @param toIndex its last
 * @param targetPa the job's own target, which gets a rung of its own [Pa]; may be absent
 */
export function holdLadder(
  series: VacuumSeries,
  fromIndex: number,
  toIndex: number,
  targetPa: number | undefined,
): HoldLadder {
  const own = targetPa === undefined || rungsPa.some((rung) => same(rung, targetPa)) ? [] : [targetPa];
  const levels = [...rungsPa, ...own].sort((a, b) => a - b);
  const timesS = timesByRung(series, fromIndex, toIndex, Float64Array.from(levels));
  let sumS = 0;
  return levels.map((level, rung) => {
    sumS += timesS[rung];
    return [level, sumS] as const;
  });
}

/** Time by the lowest rung that it counts for; the rungs above it get it too. */
function timesByRung(
  { elapsedS, vacuumPa }: VacuumSeries,
  fromIndex: number,
  toIndex: number,
  levels: Float64Array,
): Float64Array {
  const timesS = new Float64Array(levels.length + 1);
  let rung = lowestRung(levels, vacuumPa[fromIndex], 0);
  // Neighbours mostly lie on the same rung, whose time is kept at hand, and within these pressures.
  let ownS = 0;
  let abovePa = rung === 0 ? Number.NEGATIVE_INFINITY : levels[rung - 1];
  let mostPa = rung === levels.length ? Number.POSITIVE_INFINITY : levels[rung];
  let beforeS = elapsedS[fromIndex];
  for (let i = fromIndex + 1; i <= toIndex; i += 1) {
    const atS = elapsedS[i];
    const halfS = Math.min(mostUnseenS, atS - beforeS) / 2;
    beforeS = atS;
    const pa = vacuumPa[i];
    ownS += halfS;
    if (!(pa > abovePa && pa <= mostPa)) {
      timesS[rung] = ownS;
      rung = lowestRung(levels, pa, rung);
      ownS = timesS[rung];
      abovePa = rung === 0 ? Number.NEGATIVE_INFINITY : levels[rung - 1];
      mostPa = rung === levels.length ? Number.POSITIVE_INFINITY : levels[rung];
    }
    ownS += halfS;
  }
  timesS[rung] = ownS;
  return timesS;
}

/** The lowest rung that a pressure is at or below, sought from one near it. */
function lowestRung(levels: Float64Array, pa: number, near: number): number {
  let rung = near;
  while (rung < levels.length && pa > levels[rung]) rung += 1;
  while (rung > 0 && pa <= levels[rung - 1]) rung -= 1;
  return rung;
}

/**
 * The hold at or below a target; where the target has no rung, that of the next rung below it, which is a lower bound.
 *
 * @param targetPa [Pa]
 * @returns [s]; undefined where the target lies below the ladder
 */
export function holdAtOrBelow(ladder: HoldLadder, targetPa: number): number | undefined {
  return ladder.findLast(([level]) => level <= targetPa || same(level, targetPa))?.[1];
}

/** Pressures that differ by less than any gauge shows are the same target, however it was rounded. */
function same(a: number, b: number): boolean {
  return Math.abs(a - b) <= 0.002 * b;
}
