import type { LineTemperature } from '../facts/job-material.ts';

/** Readings that are looked at: a pipe's temperature changes slowly. Common practice, no source. */
const enough = 500;

/**
 * What the pipe clamp showed from the first to the last reading of the vacuum. Rows may hold both, or each its own.
 *
 * @param elapsedS [s], ascending; rows of one moment are of several gauges and show the same clamp
 * @param vacuumPa [Pa]; NaN where not read
 * @param lineC [°C]; NaN where not read
 * @returns the mean, and the lowest median of three in a row; undefined where the clamp was not read
 */
export function lineTemperature(
  elapsedS: Float64Array,
  vacuumPa: Float64Array,
  lineC: Float64Array,
): LineTemperature | undefined {
  let from = 0;
  let to = vacuumPa.length - 1;
  while (from <= to && Number.isNaN(vacuumPa[from])) from += 1;
  while (to > from && Number.isNaN(vacuumPa[to])) to -= 1;
  const stride = Math.ceil((to - from + 1) / enough);
  let count = 0;
  let sumC = 0;
  let lowC = Number.POSITIVE_INFINITY;
  let atS = Number.NaN;
  let beforeC = Number.NaN;
  let lastC = Number.NaN;
  for (let row = from; row <= to; ) {
    const nextC = lineC[row];
    if (Number.isNaN(nextC) || elapsedS[row] === atS) {
      row += 1;
      continue;
    }
    count += 1;
    sumC += nextC;
    const middleC = Math.max(Math.min(beforeC, lastC), Math.min(Math.max(beforeC, lastC), nextC));
    if (middleC < lowC) lowC = middleC;
    atS = elapsedS[row];
    beforeC = lastC;
    lastC = nextC;
    row += stride;
  }
  if (count === 0) return undefined;
  const meanC = sumC / count;
  // Of one or two readings none is known to be a spike.
  return { meanK: meanC + 273.15, lowK: (count < 3 ? meanC : lowC) + 273.15 };
}
