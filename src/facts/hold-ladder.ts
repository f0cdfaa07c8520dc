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
  { elapsedS, vacuumPa }: VacuumSeries,
  fromIndex: number,
  toIndex: number,
  targetPa: number | undefined,
): HoldLadder {
  const levels = [
    ...rungsPa,
    ...(targetPa === undefined || rungsPa.some((rung) => same(rung, targetPa)) ? [] : [targetPa]),
  ].sort((a, b) => a - b);
  // Time by the lowest rung that it counts for; the rungs above it get it too.
  const timesS = new Float64Array(levels.length + 1);
  // Neighbours lie on the same rung or the next.
  const lowestRung = (pressurePa: number, near: number) => {
    let rung = near;
    while (rung < levels.length && pressurePa > levels[rung]) rung += 1;
    while (rung > 0 && pressurePa <= levels[rung - 1]) rung -= 1;
    return rung;
  };
  for (let i = fromIndex, before = lowestRung(vacuumPa[fromIndex], 0); i < toIndex; i += 1) {
    const after = lowestRung(vacuumPa[i + 1], before);
    const halfS = Math.min(mostUnseenS, elapsedS[i + 1] - elapsedS[i]) / 2;
    timesS[before] += halfS;
    timesS[after] += halfS;
    before = after;
  }
  let sumS = 0;
  return levels.map((level, rung) => {
    sumS += timesS[rung];
    return [level, sumS] as const;
  });
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
