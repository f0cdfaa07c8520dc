import { pressureNotHeld } from '../../src/checks/pressure-test/pressure-not-held.ts';
import type { Outcome } from '../../src/checks/check.ts';
import { asRecorded, resolveLimits } from '../../src/checks/policy.ts';
import { type Claim, type ClaimCase, claim } from './claim.ts';
import { type StandingTrial, standingTrial } from './standing-trial.ts';

const PSI_PA = 6894.757293168;
const psi = (pa: number | undefined) => (pa === undefined ? '–' : (pa / PSI_PA).toFixed(2));
/** Sun or weather moves the pipe by so much [K], and a test of that size is what a person would doubt. */
const muchK = 5;

/** What standing tests claim, beside their goals. */
export function standingClaims(results: readonly StandingTrial[]): Claim[] {
  const clamped = results.filter(({ plan }) => plan.clamp !== undefined);
  const judged = clamped.filter(({ dropPa, facts }) => dropPa !== undefined && facts.pressure_drop_pa !== undefined);
  const tight = judged.filter(({ plan }) => plan.kind === 'tight');
  const leaking = judged.filter(({ plan }) => plan.kind === 'leaking');
  const isWarmed = ({ facts }: StandingTrial) =>
    (facts.warmest_line_k ?? 0) - (facts.coldest_line_k ?? Number.POSITIVE_INFINITY) >= muchK;
  const isApart = ({ plan }: StandingTrial) => plan.test.parts.length > 1;
  const bare = results.filter(({ plan }) => plan.clamp === undefined);
  const covered = { least: 0.93, most: 0.97 };
  const sizes = (from: number, to: number) =>
    tight.filter(({ plan }) => plan.holdS >= from && plan.holdS < to).map(sizeCase);
  const write = (value: number) => `${value.toFixed(2)} psi`;
  return [
    claim('standing hold found, both ends within max(5 s, 2.5 intervals)', results.map(holdCase)),
    claim('standing tests judged, where the pipe was logged', clamped.map(judgedCase), { least: 0.99 }),
    claim('drop interval holds the truth', judged.map(coverCase), covered),
    claim('… tight systems', tight.map(coverCase), covered),
    claim('… leaking systems', leaking.map(coverCase), covered),
    claim(`… pipe moved by ${muchK} K or more`, judged.filter(isWarmed).map(coverCase), covered),
    claim('… a part of the gas elsewhere than the clamp', judged.filter(isApart).map(coverCase)),
    claim(
      '… truth above it',
      judged.map((one) => sideCase(one, 'above')),
    ),
    claim(
      '… truth below it',
      judged.map((one) => sideCase(one, 'below')),
    ),
    claim('tight systems failed', tight.map(failedCase), { most: 0.01 }),
    claim(`… pipe moved by ${muchK} K or more`, tight.filter(isWarmed).map(failedCase), { most: 0.01 }),
    claim('tight systems failed, pipe not logged', bare.filter(({ plan }) => plan.kind === 'tight').map(failedCase), {
      most: 0,
    }),
    claim(
      'leaking systems failed, pipe not logged',
      bare.filter(({ plan }) => plan.kind === 'leaking').map(failedCase),
      {
        most: 0,
      },
    ),
    claim(
      'smallest visible drop, found when it is there',
      tight.map((one) => againCase(one, 1)),
      {
        least: 0.75,
        most: 0.85,
      },
    ),
    claim(
      `… pipe moved by ${muchK} K or more`,
      tight.filter(isWarmed).map((one) => againCase(one, 1)),
    ),
    claim(
      'twice that drop, found',
      tight.map((one) => againCase(one, 2)),
      { least: 0.95 },
    ),
    claim('smallest visible drop, median: 15 min to 1 h', sizes(0, 3600), { write }),
    claim('… 1 to 4 h', sizes(3600, 14_400), { write }),
    claim('… 4 to 24 h', sizes(14_400, Number.POSITIVE_INFINITY), { write }),
    claim(
      'time for the facts of a standing test, median',
      results.map(({ plan, factsMs }) => ({ plan, value: factsMs, badness: 0, says: '' })),
      { write: (value) => `${value.toFixed(2)} ms` },
    ),
  ];
}

function outcomeOf({ facts }: StandingTrial): Outcome {
  return pressureNotHeld.judge(facts, resolveLimits(pressureNotHeld, asRecorded, undefined)).outcome;
}

function says({ plan, facts, dropPa }: StandingTrial): string {
  const { weather } = plan.test.parts[0];
  return (
    `true ${psi(dropPa)} psi, found ${psi(facts.pressure_drop_pa)} (${psi(facts.pressure_drop_low_pa)} to ${psi(facts.pressure_drop_high_pa)}), ` +
    `${(plan.holdS / 3600).toFixed(1)} h, sun ${weather.sunK.toFixed(0)} K, ${plan.test.parts.length} part(s), step ${psi(plan.gauge.stepPa)} psi`
  );
}

function holdCase(trial: StandingTrial): ClaimCase {
  const { plan, facts, hold } = trial;
  const within = Math.max(5, 2.5 * plan.gauge.intervalS);
  const [start, end] = [
    Math.abs((facts.pressure_hold_start_s ?? Number.POSITIVE_INFINITY) - hold.startS),
    Math.abs((facts.pressure_hold_end_s ?? Number.POSITIVE_INFINITY) - hold.endS),
  ];
  const value = start <= within && end <= within;
  const spans = `true ${hold.startS.toFixed(0)}–${hold.endS.toFixed(0)} s, found ${facts.pressure_hold_start_s?.toFixed(0)}–${facts.pressure_hold_end_s?.toFixed(0)}`;
  return { plan, value, badness: value ? 0 : Math.max(start, end), says: spans };
}

function judgedCase(trial: StandingTrial): ClaimCase {
  const value = trial.facts.pressure_drop_pa !== undefined;
  return { plan: trial.plan, value, badness: value ? 0 : 1, says: trial.facts.pressure_problem ?? 'no drop' };
}

/** How far outside its interval the truth lies, in halves of its width: below 0 inside. */
function outside({ facts, dropPa = 0 }: StandingTrial): { side: 'above' | 'below' | 'in'; by: number } {
  const { pressure_drop_low_pa: low = 0, pressure_drop_high_pa: high = 0 } = facts;
  const half = (high - low) / 2;
  if (dropPa > high) return { side: 'above', by: (dropPa - high) / half };
  return dropPa < low ? { side: 'below', by: (low - dropPa) / half } : { side: 'in', by: 0 };
}

function coverCase(trial: StandingTrial): ClaimCase {
  const { side, by } = outside(trial);
  return { plan: trial.plan, value: side === 'in', badness: by, says: says(trial) };
}

function sideCase(trial: StandingTrial, wanted: 'above' | 'below'): ClaimCase {
  return { plan: trial.plan, value: outside(trial).side === wanted, badness: 0, says: '' };
}

function failedCase(trial: StandingTrial): ClaimCase {
  const value = outcomeOf(trial) === 'fail';
  return { plan: trial.plan, value, badness: value ? (trial.facts.pressure_drop_sure_pa ?? 1) : 0, says: says(trial) };
}

/** The same test once more, with fresh noise and weather and with a loss of so many times what it says it could have told. */
function againCase({ plan, facts }: StandingTrial, times: 1 | 2): ClaimCase {
  const dropPa = times * (facts.smallest_drop_seen_pa ?? 0);
  const overS = (facts.pressure_hold_end_s ?? 0) - (facts.pressure_settled_s ?? 0);
  const again = standingTrial(plan, 1 + times, { dropPa, overS });
  const value = outcomeOf(again) === 'fail';
  return { plan, value, badness: value ? 0 : dropPa, says: `added ${psi(dropPa)} psi; ${says(again)}` };
}

function sizeCase({ plan, facts }: StandingTrial): ClaimCase {
  return { plan, value: (facts.smallest_drop_seen_pa ?? 0) / PSI_PA, badness: 0, says: '' };
}
