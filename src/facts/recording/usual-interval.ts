import { median } from '../../numerics/median.ts';

/** The interval beside a gap is told from so many readings before and after it. */
const besides = 12;

/**
 * The usual time between readings beside a place of a series [s]: the median over the readings before and after it.
 *
 * @param values where they are NaN nothing was read
 * @param fromIndex last reading before the place; @param toIndex first one after
 * @returns NaN where there are too few
 */
export function usualInterval(
  elapsedS: Float64Array,
  values: Float64Array,
  fromIndex: number,
  toIndex: number,
): number {
  const before = readTimes(elapsedS, values, fromIndex, -1, besides + 1);
  const after = readTimes(elapsedS, values, toIndex, 1, besides + 1);
  const apartS = [before, after].flatMap((times) => times.slice(1).map((atS, place) => Math.abs(atS - times[place])));
  return apartS.length < 4 ? Number.NaN : median(Float64Array.from(apartS));
}

/** Times of so many readings from a row on, one way or the other. */
function readTimes(elapsedS: Float64Array, values: Float64Array, from: number, way: 1 | -1, most: number): number[] {
  const times: number[] = [];
  for (let row = from; row >= 0 && row < values.length && times.length < most; row += way)
    if (!Number.isNaN(values[row])) times.push(elapsedS[row]);
  return times;
}
