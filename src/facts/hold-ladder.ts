import type { VacuumSeries } from '../traces/vacuum-series.ts';

/** Pressures for which the time at or below them is kept [Pa]: those that published criteria and common practice name. */
const rungsPa: readonly number[] = [50, 100, 150, 200, 250, 300, 400, 500, 750, 1000, 1500, 2000, 5000].map(
  (micron) => micron * 0.133322368,
);

/** Rungs as [pressure Pa, time s], rising. */
export type HoldLadder = readonly (readonly [number, number])[];

/**
 * How long the pressure last stayed at or below each of a ladder of pressures before the pumped stretch ended. Facts know
 * no policy; with the ladder, any policy's target finds its hold.
 *
 * @param targetPa the job's own target, which gets a rung of its own [Pa]; may be absent
 */
export function holdLadder(
  series: VacuumSeries,
  fromIndex: number,
  toIndex: number,
  targetPa: number | undefined,
): HoldLadder {
  const levels = [
    ...rungsPa,
    ...(targetPa === undefined || rungsPa.some((rung) => same(rung, targetPa)) ? [] : [targetPa]),
  ].sort((a, b) => a - b);
  const endS = series.elapsedS[toIndex];
  const ladder: [number, number][] = [];
  let index = toIndex;
  for (const level of levels) {
    while (index >= fromIndex && !(series.vacuumPa[index] > level)) index -= 1;
    ladder.push([level, index === toIndex ? 0 : endS - series.elapsedS[index + 1]]);
  }
  return ladder;
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
