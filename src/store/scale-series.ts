import type { ScaleSeries } from '../traces/scale-series.ts';

/**
 * The readings of the charging scale.
 *
 * @param elapsedS [s], ascending; rows of one moment are of several gauges and show the same scale
 * @param scaleKg [kg]; NaN where not read
 * @returns undefined where it was not read
 */
export function scaleSeries(elapsedS: Float64Array, scaleKg: Float64Array): ScaleSeries | undefined {
  let count = 0;
  for (let row = 0; row < scaleKg.length; row += 1) if (!Number.isNaN(scaleKg[row])) count += 1;
  if (count === 0) return undefined;
  const times = new Float64Array(count);
  const masses = new Float64Array(count);
  let next = 0;
  for (let row = 0; row < scaleKg.length; row += 1) {
    if (Number.isNaN(scaleKg[row]) || (next > 0 && elapsedS[row] <= times[next - 1])) continue;
    times[next] = elapsedS[row];
    masses[next] = scaleKg[row];
    next += 1;
  }
  return { elapsedS: times.subarray(0, next), scaleKg: masses.subarray(0, next) };
}
