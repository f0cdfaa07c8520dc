import { type HazardRows, rowEffect } from './proportional-hazards.ts';
import { RiskSets } from './risk-sets.ts';

/** The hazard of a row without any column, added up over time: a step at each time at which something happened. */
export interface BaselineHazard {
  /** Ascending. */
  readonly times: Float64Array;
  /** What has added up by each of them. */
  readonly hazards: Float64Array;
}

/**
 * The hazard that all rows of a model of proportional hazards have in common, added up over time; strata are taken together.
 *
 * Source: Breslow's estimate with Efron's approximation for ties (`efron-1977`).
 *
 * @example
 * // Without columns it is the one of Nelson and Aalen: 1/3, then 1/3 + 1/2.
 * const rows = { width: 0, columns: new Int32Array(), stops: Float64Array.of(1, 2, 3), events: Uint8Array.of(1, 1, 0) };
 * [...baselineHazard(rows, new Float64Array()).hazards] // [0.3333333, 0.8333333]
 */
export function baselineHazard({ strata: _, ...rows }: HazardRows, coefficients: Float64Array): BaselineHazard {
  const steps: { time: number; hazard: number }[] = [];
  const hazard = (row: number): number => Math.exp(rowEffect(rows, row, coefficients));
  let all = 0;
  new RiskSets(rows).walk({
    add: (row) => (all += hazard(row)),
    remove: (row) => (all -= hazard(row)),
    events: (time, happened) => {
      const own = happened.reduce((sum, row) => sum + hazard(row), 0);
      const added = happened.reduce((sum, _row, each) => sum + 1 / (all - (each / happened.length) * own), 0);
      steps.push({ time, hazard: added });
    },
  });
  steps.reverse();
  let sum = 0;
  return {
    times: Float64Array.from(steps, ({ time }) => time),
    hazards: Float64Array.from(steps, ({ hazard: added }) => (sum += added)),
  };
}

/**
 * What has added up of a baseline hazard by a time, that time included.
 *
 * @example hazardBy({ times: Float64Array.of(1, 5), hazards: Float64Array.of(0.1, 0.3) }, 4) // 0.1
 */
export function hazardBy({ times, hazards }: BaselineHazard, time: number): number {
  let [low, high] = [0, times.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle] <= time) low = middle + 1;
    else high = middle;
  }
  return low === 0 ? 0 : hazards[low - 1];
}
