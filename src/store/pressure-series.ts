import type { PressureSeries } from '../traces/pressure-series.ts';

/** A clamp tells the pipe's temperature between two readings no farther apart than this [s]. Common practice, no source. */
const mostApartS = 900;

/**
 * The readings of a standing pressure test with the pipe's temperature at each: of the same row, else between the rows
 * around it that have one.
 *
 * @param elapsedS [s], ascending; @param testPa [Pa], NaN where not read; @param lineC [°C], NaN where not read
 * @returns undefined where there is no pressure
 */
export function pressureSeries(
  elapsedS: Float64Array,
  testPa: Float64Array,
  lineC: Float64Array | undefined,
): PressureSeries | undefined {
  let count = 0;
  let last = -1;
  for (let row = 0; row < testPa.length; row += 1) {
    if (!(testPa[row] >= 0)) continue;
    count += 1;
    last = row;
  }
  if (count === 0) return undefined;
  const times = new Float64Array(count);
  const pressures = new Float64Array(count);
  const temperatures = lineC === undefined ? undefined : new Float64Array(count);
  let next = 0;
  let before = -1;
  let after = 0;
  let clamped = 0;
  for (let row = 0; row <= last; row += 1) {
    if (lineC !== undefined && !Number.isNaN(lineC[row])) before = row;
    if (!(testPa[row] >= 0)) continue;
    times[next] = elapsedS[row];
    pressures[next] = testPa[row];
    if (lineC !== undefined && temperatures !== undefined) {
      after = Math.max(after, row);
      while (after < lineC.length && Number.isNaN(lineC[after])) after += 1;
      temperatures[next] = between(elapsedS, lineC, row, before, after) + 273.15;
      if (!Number.isNaN(temperatures[next])) clamped += 1;
    }
    next += 1;
  }
  return { elapsedS: times, testPa: pressures, lineK: clamped === 0 ? undefined : temperatures };
}

/** What the clamp showed at a row, by the rows before and after it that have a reading; NaN where they are too far. */
function between(elapsedS: Float64Array, lineC: Float64Array, row: number, before: number, after: number): number {
  if (before === row) return lineC[row];
  const sinceS = before < 0 ? Number.POSITIVE_INFINITY : elapsedS[row] - elapsedS[before];
  const untilS = after >= lineC.length ? Number.POSITIVE_INFINITY : elapsedS[after] - elapsedS[row];
  if (sinceS + untilS <= mostApartS) {
    if (sinceS + untilS === 0) return lineC[before];
    return (lineC[before] * untilS + lineC[after] * sinceS) / (sinceS + untilS);
  }
  if (Math.min(sinceS, untilS) > mostApartS / 2) return Number.NaN;
  return sinceS <= untilS ? lineC[before] : lineC[after];
}
