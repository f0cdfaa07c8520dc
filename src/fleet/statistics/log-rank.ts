import { normalShareBelow } from '../../numerics/normal-distribution.ts';
import { RiskSets, type WatchedRows } from '../../numerics/risk-sets.ts';

/** Whether two groups have the event at the same rate. */
export interface LogRank {
  /** Events of the second group, and how many were to be expected if both had the same hazard. */
  readonly observed: number;
  readonly expected: number;
  /** Variance of the difference. */
  readonly variance: number;
  /** Chi-square with one degree of freedom; NaN where the groups never stood beside each other. */
  readonly statistic: number;
  /** Chance of at least so much by chance alone, two-sided. */
  readonly chance: number;
}

/**
 * The log-rank test of two groups.
 *
 * @param isSecond 1 for the rows of the second group
 *
 * Source: `mantel-1966`, with the hypergeometric variance. Accuracy: reproduces `freireich-1963` to the places printed.
 *
 * @example logRank({ stops: Float64Array.of(1, 2, 3, 4), events: Uint8Array.of(1, 1, 1, 1) }, Uint8Array.of(1, 1, 0, 0)).expected // 0.8333333
 */
export function logRank(rows: WatchedRows, isSecond: Uint8Array): LogRank {
  let [all, second, observed, expected, variance] = [0, 0, 0, 0, 0];
  new RiskSets(rows).walk({
    begin: () => ([all, second] = [0, 0]),
    add: (row) => {
      all += 1;
      second += isSecond[row];
    },
    remove: (row) => {
      all -= 1;
      second -= isSecond[row];
    },
    events: (_, events) => {
      const share = second / all;
      observed += events.reduce((sum, row) => sum + isSecond[row], 0);
      expected += events.length * share;
      if (all > 1) variance += (events.length * share * (1 - share) * (all - events.length)) / (all - 1);
    },
  });
  const statistic = variance > 0 ? (observed - expected) ** 2 / variance : Number.NaN;
  return { observed, expected, variance, statistic, chance: 2 * (1 - normalShareBelow(Math.sqrt(statistic))) };
}
