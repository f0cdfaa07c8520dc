import type { Units } from './fleet-jobs.ts';
import { skillOutcome } from './skill.ts';
import type { Tally } from './statistics/shrunken-shares.ts';

/** What one unit's jobs came to, beside what was expected of these very jobs. `jobs` are those that were judged. */
export interface UnitTally extends Tally {
  readonly expected: number;
  /** Variance of the number found if each job had its expected chance. */
  readonly variance: number;
  readonly notEvaluated: number;
  readonly missing: number;
}

/**
 * Tallies of all units of a grouping, in the order of their ids.
 *
 * @param outcomes of each job, as `skillOutcomes` gives them
 * @param chances of each job, as `expectation` gives them
 */
export function unitTallies(units: Units, outcomes: Uint8Array, chances: Float64Array): UnitTally[] {
  const count = units.ids.length;
  // By outcome, then by unit.
  const counts = new Int32Array(4 * count);
  const [expected, variance] = [new Float64Array(count), new Float64Array(count)];
  for (let job = 0; job < outcomes.length; job += 1) {
    const unit = units.of[job];
    if (unit < 0) continue;
    counts[outcomes[job] * count + unit] += 1;
    if (outcomes[job] < skillOutcome.clean) continue;
    expected[unit] += chances[job];
    variance[unit] += chances[job] * (1 - chances[job]);
  }
  const of = (outcome: number, unit: number): number => counts[outcome * count + unit];
  return units.ids.map((_, unit) => ({
    found: of(skillOutcome.found, unit),
    jobs: of(skillOutcome.found, unit) + of(skillOutcome.clean, unit),
    expected: expected[unit],
    variance: variance[unit],
    notEvaluated: of(skillOutcome.notEvaluated, unit),
    missing: of(skillOutcome.missing, unit),
  }));
}
