import { RiskSets, type WatchedRows } from '../../numerics/risk-sets.ts';

/** What is left without the event after a time at which it happened, ratios 0…1. */
export interface SurvivalStep {
  readonly time: number;
  readonly atRisk: number;
  readonly events: number;
  readonly share: number;
  /** 95 % interval of the share. */
  readonly low: number;
  readonly high: number;
}

/** Rows of which some end for reasons that have to do with the event: each stands for those like it that ended so. */
export interface WeightedRows extends WatchedRows {
  /** For how many a row stands at a time; absent: 1. */
  readonly weightAt?: (row: number, time: number) => number;
}

const normal95 = 1.959964;

/**
 * The share that has no event yet, by time, where rows are watched for different lengths of time.
 *
 * @returns a step at each time at which something happened, ascending
 *
 * Source: `kaplan-meier-1958`; intervals by Greenwood's variance on the scale log(−log) (`kalbfleisch-prentice`); weights as
 * `robins-finkelstein-2000` has them. Accuracy: reproduces `freireich-1963` to the places printed.
 *
 * @example kaplanMeier({ stops: Float64Array.of(6, 6, 7, 9), events: Uint8Array.of(1, 0, 1, 0) }).map(({ share }) => share) // [0.75, 0.375]
 */
export function kaplanMeier({ weightAt, ...rows }: WeightedRows): SurvivalStep[] {
  const sets: { time: number; atRisk: number; all: number; events: readonly number[] }[] = [];
  const inSet = new Set<number>();
  new RiskSets(rows).walk({
    add: (row) => inSet.add(row),
    remove: (row) => inSet.delete(row),
    events: (time, events) => {
      let all = inSet.size;
      if (weightAt !== undefined) {
        all = 0;
        for (const row of inSet) all += weightAt(row, time);
      }
      sets.push({ time, atRisk: inSet.size, all, events });
    },
  });
  let [share, variance] = [1, 0];
  return sets.reverse().map(({ time, atRisk, all, events }) => {
    const weights = events.map((row) => weightAt?.(row, time) ?? 1);
    const lost = weights.reduce((sum, weight) => sum + weight, 0);
    const left = Math.max(0, all - lost);
    share *= left / all;
    // With weights of 1 this is Greenwood’s d / (n (n − d)).
    variance += weights.reduce((sum, weight) => sum + weight ** 2, 0) / (all * left);
    return { time, atRisk, events: events.length, share, ...interval(share, variance) };
  });
}

function interval(share: number, variance: number): { low: number; high: number } {
  if (share <= 0) return { low: 0, high: 0 };
  const half = (normal95 * Math.sqrt(variance)) / Math.abs(Math.log(share));
  return { low: share ** Math.exp(half), high: share ** Math.exp(-half) };
}

/**
 * The step that counts at a time; undefined before the first.
 *
 * @example stepAt(kaplanMeier({ stops: Float64Array.of(6, 7), events: Uint8Array.of(1, 0) }), 10)?.share // 0.5
 */
export function stepAt(steps: readonly SurvivalStep[], time: number): SurvivalStep | undefined {
  return steps.findLast((step) => step.time <= time);
}
