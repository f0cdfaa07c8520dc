import type { ScaleSeries } from '../traces/scale-series.ts';

/**
 * The readings of the charging scale.
 *
 * @param elapsedS [s], ascending; rows of one moment are of several gauges and show the same scale
 * @param scaleKg [kg]; NaN where not read
 * @returns undefined where it was not read
 */
export function scaleSeries(elapsedS: Float64Array, scaleKg: Float64Array): ScaleSeries | undefined {
  const rows: number[] = [];
  let lastS = Number.NEGATIVE_INFINITY;
  for (let row = 0; row < scaleKg.length; row += 1) {
    if (Number.isNaN(scaleKg[row]) || elapsedS[row] <= lastS) continue;
    rows.push(row);
    lastS = elapsedS[row];
  }
  if (rows.length === 0) return undefined;
  return {
    elapsedS: Float64Array.from(rows, (row) => elapsedS[row]),
    scaleKg: Float64Array.from(rows, (row) => scaleKg[row]),
  };
}
