import { quantile } from '../../../src/numerics/quantile.ts';
import { type Claim, type ClaimCase, type ClaimGoal, claim, type TrialName } from '../claim.ts';

/** Something that has a name, by the truth and by the product. */
export interface Named {
  readonly plan: TrialName;
  /** Undefined where nothing is there to be named. */
  readonly truth: string | undefined;
  /** Undefined where the product names none; it may have said that it cannot tell. */
  readonly found: string | undefined;
  readonly isUntold: boolean;
  readonly says: string;
}

/**
 * Recall and precision of every name: of those that are truly so, how many are named so, and of those that are named so, how many are.
 * What is not told counts against recall.
 */
export function namedClaims(what: string, all: readonly Named[], names: readonly string[]): Claim[] {
  return names.flatMap((name) => [
    claim(
      `${what} ${name}: recall`,
      all
        .filter(({ truth }) => truth === name)
        .map(({ plan, found, isUntold, says }) => ({
          plan,
          value: found === name,
          badness: found === name ? 0 : isUntold ? 1 : 2,
          says,
          isUntold,
        })),
    ),
    claim(
      '… precision',
      all
        .filter(({ found }) => found === name)
        .map(({ plan, truth, says }) => ({ plan, value: truth === name, badness: truth === name ? 0 : 1, says })),
    ),
  ]);
}

/** True × found, counts; its heads first. */
export function confusion(all: readonly Named[], names: readonly string[]): string[][] {
  const found = [...new Set([...names, ...all.map((one) => one.found ?? 'none')])];
  const truths = [...new Set([...names, ...all.map((one) => one.truth ?? 'none')])];
  return [
    ['true \\ found', ...found],
    ...truths.map((truth) => {
      const those = all.filter((one) => (one.truth ?? 'none') === truth);
      return [truth, ...found.map((name) => String(those.filter((one) => (one.found ?? 'none') === name).length))];
    }),
  ];
}

/** One figure's error, whichever way; undefined where the product tells none. */
export interface ErrorCase {
  readonly plan: TrialName;
  readonly error: number | undefined;
  readonly says: string;
}

/** How far figures are off: the median, and within what nine of ten and 99 of 100 are. */
export function errorClaim(what: string, all: readonly ErrorCase[], write: (value: number) => string): Claim {
  const told = all.flatMap(({ plan, error, says }) =>
    error === undefined ? [] : [{ plan, error: Math.abs(error), says }],
  );
  const errors = told.map(({ error }) => error);
  const [half, most, nearlyAll] = [0.5, 0.9, 0.99].map((share) => (errors.length === 0 ? 0 : quantile(errors, share)));
  const cases = told.map(({ plan, error, says }) => ({
    plan,
    value: error,
    badness: error > most ? error : 0,
    says,
  }));
  return {
    ...claim(what, cases, { write }),
    measured: errors.length === 0 ? '–' : `${write(half)}; 90 %: ${write(most)}; 99 %: ${write(nearlyAll)}`,
    cases: all.length,
    notTold: all.length - told.length,
  };
}

/** An interval beside the truth. */
export interface IntervalCase {
  readonly plan: TrialName;
  readonly truth: number;
  /** Undefined where the product gives none. */
  readonly low: number | undefined;
  readonly high: number | undefined;
  readonly says: string;
}

/** How often intervals hold the truth, of those that are given; how many are not is counted beside. */
export function coverageClaim(what: string, all: readonly IntervalCase[], goal: ClaimGoal = {}): Claim {
  const given = all.flatMap(({ plan, truth, low, high, says }): ClaimCase[] => {
    if (low === undefined || high === undefined) return [];
    const outside = Math.max(low - truth, truth - high) / Math.max((high - low) / 2, Number.MIN_VALUE);
    return [{ plan, value: outside <= 0, badness: outside, says }];
  });
  return { ...claim(what, given, goal), notTold: all.length - given.length };
}
