import type { PressureSeries } from '../../traces/pressure-series.ts';
import { isPipeTemperature } from '../line-facts.ts';

/** A series whose pipe temperature is known at every reading. */
export type ClampedSeries = PressureSeries & { readonly lineK: Float64Array };

/** The first and the last temperature lie no farther from the ends of what is judged than this share of it. Common practice, no source. */
const mostOffShare = 0.05;

/**
 * The judged readings at which the pipe's temperature is known: all of them as a rule, else those at both ends and what there
 * is between. Two are enough: what the gas did between them makes the interval wider.
 *
 * @param from first reading that is judged; @param to last one
 * @returns undefined where they do not reach from end to end
 */
export function clampedReadings(series: PressureSeries, from: number, to: number): ClampedSeries | undefined {
  const { elapsedS, testPa, lineK } = series;
  if (lineK === undefined) return undefined;
  let first = from;
  let last = to;
  while (first < last && !isPipeTemperature(lineK[first])) first += 1;
  while (last > first && !isPipeTemperature(lineK[last])) last -= 1;
  const mostOffS = mostOffShare * (elapsedS[to] - elapsedS[from]);
  const reaches = elapsedS[first] - elapsedS[from] <= mostOffS && elapsedS[to] - elapsedS[last] <= mostOffS;
  if (first === last || !reaches) return undefined;
  const inside = lineK.subarray(first, last + 1);
  if (inside.every(isPipeTemperature))
    return { elapsedS: elapsedS.subarray(first, last + 1), testPa: testPa.subarray(first, last + 1), lineK: inside };
  const of = (column: Float64Array) =>
    column.subarray(first, last + 1).filter((_, at) => isPipeTemperature(inside[at]));
  return { elapsedS: of(elapsedS), testPa: of(testPa), lineK: of(lineK) };
}
