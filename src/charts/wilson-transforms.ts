import type { CalculateTransform } from 'vega-lite/types_unstable/transform.js';
import { NORMAL_QUANTILE_95 } from '../numerics/wilson-interval.ts';

const squared = NORMAL_QUANTILE_95 ** 2;

/**
 * A share and its 95 % Wilson interval, reckoned in the page: adds `share`, `low` and `high` [ratio], null where nothing was
 * looked at.
 *
 * @param successes field of how many had the trait [count]
 * @param trials field of how many were looked at [count]
 *
 * Source: newcombe-1998, method 3. Accuracy: that of `wilsonInterval`, of which this is the formula.
 */
export function wilsonTransforms(successes: string, trials: string): CalculateTransform[] {
  const [found, all] = [`datum.${successes}`, `datum.${trials}`];
  const centre = `datum.share + ${squared} / (2 * ${all})`;
  const halfWidth = `${NORMAL_QUANTILE_95} * sqrt(datum.share * (1 - datum.share) / ${all} + ${squared} / (4 * ${all} * ${all}))`;
  const bound = (sign: '+' | '-') => `(${centre} ${sign} ${halfWidth}) / (1 + ${squared} / ${all})`;
  const ifAny = (value: string) => `${all} > 0 ? ${value} : null`;
  return [
    { calculate: ifAny(`${found} / ${all}`), as: 'share' },
    { calculate: ifAny(`${found} === 0 ? 0 : ${bound('-')}`), as: 'low' },
    { calculate: ifAny(`${found} === ${all} ? 1 : ${bound('+')}`), as: 'high' },
  ];
}
