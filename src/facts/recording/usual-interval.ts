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
  const apartS: number[] = [];
  addTimesApart(apartS, elapsedS, values, fromIndex, -1);
  addTimesApart(apartS, elapsedS, values, toIndex, 1);
  return apartS.length < 4 ? Number.NaN : median(apartS);
}

/** The times between so many readings from a row on, one way or the other. */
function addTimesApart(
  apartS: number[],
  elapsedS: Float64Array,
  values: Float64Array,
  from: number,
  way: 1 | -1,
): void {
  let left = besides + 1;
  let last = -1;
  for (let row = from; row >= 0 && row < values.length && left > 0; row += way) {
    if (Number.isNaN(values[row])) continue;
    if (last >= 0) apartS.push(Math.abs(elapsedS[row] - elapsedS[last]));
    last = row;
    left -= 1;
  }
}
