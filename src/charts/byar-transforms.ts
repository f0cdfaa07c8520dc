import type { CalculateTransform } from 'vega-lite/types_unstable/transform.js';
import { NORMAL_QUANTILE_95 } from '../numerics/wilson-interval.ts';

/**
 * The 95 % interval of found over expected, reckoned in the page: adds `low` and `high` [ratio], null where none is expected.
 *
 * For counts that come by themselves, as those of a Poisson distribution do, beside an expectation that is known.
 *
 * @param found field of how many were found [count], whole
 * @param expected field of how many are expected [count]
 *
 * Source: breslow-day-1987, Byar's approximation to the exact interval. Accuracy: upper bounds within 0.6 % of the exact ones at 0
 * found, 0.15 % from 1 on; lower bounds are too low, by 0.8 % at 5 found and less from there on, 1.3 % at 4, 2.6 % at 3, 7.3 % at 2,
 * and half at 1, where the exact one is 0.025 (measured).
 */
export function byarTransforms(found: string, expected: string): CalculateTransform[] {
  const bound = (count: string, sign: '+' | '-') =>
    `${count} * pow(1 - 1 / (9 * ${count}) ${sign} ${NORMAL_QUANTILE_95} / (3 * sqrt(${count})), 3) / datum.${expected}`;
  const ifAny = (value: string) => `datum.${expected} > 0 ? ${value} : null`;
  return [
    { calculate: ifAny(`datum.${found} === 0 ? 0 : ${bound(`datum.${found}`, '-')}`), as: 'low' },
    { calculate: ifAny(bound(`(datum.${found} + 1)`, '+')), as: 'high' },
  ];
}
