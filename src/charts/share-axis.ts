import type { Axis } from 'vega-lite/types_unstable/axis.js';
import type { ExprRef } from 'vega-lite/types_unstable/expr.js';

/**
 * Where an axis of shares ends: at the next quarter above the largest share, so that small shares are not pressed flat. Charts
 * side by side compare where each reckons it from the same rows.
 *
 * @param share expression of the largest share or upper bound to show [ratio]; null there stands for 0
 * @returns Vega expression [ratio]
 * @example shareReach('0.61') // 'min(4, max(1, ceil(4 * (0.61) - 1e-9))) / 4'
 */
export function shareReach(share: string): string {
  return `min(4, max(1, ceil(4 * (${share}) - 1e-9))) / 4`;
}

/** The axis of such a scale: ticks at each quarter, or at each tenth up to the first. */
export function shareAxis(scale: 'x' | 'y'): Axis<ExprRef> {
  const end = `domain('${scale}')[1]`;
  return { format: '.0%', values: { expr: `${end} > 0.25 ? sequence(0, ${end} + 0.01, 0.25) : [0, 0.1, 0.2]` } };
}
