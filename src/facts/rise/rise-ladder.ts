import { median } from '../../numerics/median.ts';
import type { VacuumSeries } from '../../traces/vacuum-series.ts';
import { mostUnseenS } from '../longest-gap.ts';

/** Times since valve-off for which the pressure is kept [s]: those that published criteria and common practice name. */
const rungsS: readonly number[] = [60, 120, 180, 300, 600, 900, 1200, 1800, 3600, 7200];

/** [time since valve-off s, pressure Pa], rising; null where no reading tells the pressure. */
export type RiseLadder = readonly (readonly [number, number | null])[];

/** The level at a moment is the median of so many readings, around it … */
const readings = 5;
/** … within so many seconds. */
const nearS = 20;

/**
 * The pressure at each of a ladder of times since valve-off, as far as the isolation lasted. Facts know no policy; with the
 * ladder, a limit "after so many minutes" needs no second look at the readings.
 *
 * @param fromIndex the valve-off; @param lastIndex last reading of the isolation
 * @param askedS the length of the test that the job asks for, which gets a rung of its own [s]
 */
export function riseLadder(
  { elapsedS, vacuumPa }: VacuumSeries,
  fromIndex: number,
  lastIndex: number,
  startS: number,
  askedS: number | undefined,
): RiseLadder {
  const lastedS = elapsedS[lastIndex] - startS;
  const wantedS = [...rungsS, ...(askedS === undefined || rungsS.includes(askedS) ? [] : [askedS])]
    .filter((rung) => rung > 0 && rung < lastedS)
    .sort((a, b) => a - b);
  let index = fromIndex;
  const rungs = wantedS.map((rung): readonly [number, number | null] => {
    while (index < lastIndex && elapsedS[index] < startS + rung) index += 1;
    const beforeS = index === fromIndex ? startS : elapsedS[index - 1];
    if (elapsedS[index] - beforeS > mostUnseenS) return [rung, null];
    return [rung, levelAround(elapsedS, vacuumPa, fromIndex, lastIndex, index)];
  });
  return [...rungs, [lastedS, levelAround(elapsedS, vacuumPa, fromIndex, lastIndex, lastIndex)]];
}

function levelAround(
  elapsedS: Float64Array,
  vacuumPa: Float64Array,
  fromIndex: number,
  lastIndex: number,
  index: number,
): number {
  let from = index;
  let to = index;
  while (to - from < readings - 1) {
    const before = from > fromIndex + 1 && elapsedS[from - 1] > elapsedS[index] - nearS;
    const after = to < lastIndex && elapsedS[to + 1] < elapsedS[index] + nearS;
    if (!before && !after) break;
    if (after && (!before || to - index <= index - from)) to += 1;
    else from -= 1;
  }
  return median(vacuumPa.subarray(from, to + 1));
}

/**
 * The pressure of an isolated system at a time after valve-off, from its ladder.
 *
 * Facts know no policy; with the ladder, any policy's test time finds its level. Between two rungs a straight line, which
 * a slackening rise passes a little above; the times that published criteria name have rungs of their own.
 *
 * @param riseLadder the fact `rise_ladder`: [[seconds since valve-off, Pa], …] as JSON, ascending; null within a gap
 * @param afterS time after valve-off [s]
 * @param startPa pressure at valve-off [Pa]
 * @returns [Pa]; undefined where the ladder does not reach so far, or the time lies in a gap
 * @example riseLevelAt('[[60, 40], [120, 44]]', 90, 33) // 42
 */
export function riseLevelAt(riseLadder: string, afterS: number, startPa: number): number | undefined {
  let beforeS = 0;
  let beforePa: number | null = startPa;
  for (const [rungS, rungPa] of JSON.parse(riseLadder) as RiseLadder) {
    if (rungS >= afterS) {
      if (rungPa === null || beforePa === null) return undefined;
      const share = rungS === beforeS ? 1 : (afterS - beforeS) / (rungS - beforeS);
      return beforePa + share * (rungPa - beforePa);
    }
    [beforeS, beforePa] = [rungS, rungPa];
  }
  return undefined;
}
