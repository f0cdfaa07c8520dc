import { type Claim, type ClaimCase, claim } from './claim.ts';
import type { TrialResult } from './trial-result.ts';

/**
 * Whether the time at or below the target is found: by the target that the gauge shows, since nobody but a second gauge knows
 * better, and by the plain truth; and whether none is found where it was never reached.
 */
export function holdClaims(results: readonly TrialResult[]): Claim[] {
  const held = results.filter(({ truth }) => truth.shown_hold_s > 0);
  const never = results.filter(({ truth }) => truth.shown_hold_s === 0);
  const truly = results.filter(({ truth }) => (truth.hold_s ?? 0) > 0);
  const shown = ({ truth }: TrialResult) => truth.shown_hold_s;
  const plain = ({ truth }: TrialResult) => truth.hold_s ?? 0;
  return [
    claim(
      'hold at or below the target × gain within 15 s or 5 %',
      held.map((one) => holdCase(one, shown)),
      { least: 0.95 },
    ),
    claim(
      '… its error, median',
      held.map((one) => ({ ...holdCase(one, shown), value: offS(one, shown), badness: 0 })),
      { write: (value) => `${value.toFixed(1)} s` },
    ),
    claim(
      '… against the plain truth',
      truly.map((one) => ({ ...holdCase(one, plain), badness: 0 })),
    ),
    claim(
      '… at most 15 s where it was never reached',
      never.map((one) => holdCase(one, shown)),
    ),
  ];
}

type Hold = (result: TrialResult) => number;

function offS(result: TrialResult, hold: Hold): number {
  return Math.abs((result.facts.hold_s ?? 0) - hold(result));
}

function holdCase(result: TrialResult, hold: Hold): ClaimCase {
  const { plan, truth, facts } = result;
  const off = offS(result, hold);
  const value = off <= Math.max(15, 0.05 * hold(result));
  const seconds = (value: number | undefined) => (value === undefined ? 'none' : `${value.toFixed(0)} s`);
  const says =
    `true ${seconds(hold(result))}, found ${seconds(facts.hold_s)}, ` +
    `isolation true ${seconds(truth.isolation_start_s)}, found ${seconds(facts.isolation_start_s)}`;
  return { plan, value, badness: value ? 0 : off, says };
}
