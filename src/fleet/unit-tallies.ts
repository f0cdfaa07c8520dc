import type { Units } from './fleet-jobs.ts';
import { skillOutcome } from './skill.ts';
import type { Tally } from './shrunken-shares.ts';

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
  const by = Array.from({ length: 4 }, () => new Float64Array(count));
  const [expected, variance] = [new Float64Array(count), new Float64Array(count)];
  for (let job = 0; job < outcomes.length; job += 1) {
    const unit = units.of[job];
    if (unit < 0) continue;
    by[outcomes[job]][unit] += 1;
    if (outcomes[job] < skillOutcome.clean) continue;
    expected[unit] += chances[job];
    variance[unit] += chances[job] * (1 - chances[job]);
  }
  return units.ids.map((_, unit) => ({
    found: by[skillOutcome.found][unit],
    jobs: by[skillOutcome.found][unit] + by[skillOutcome.clean][unit],
    expected: expected[unit],
    variance: variance[unit],
    notEvaluated: by[skillOutcome.notEvaluated][unit],
    missing: by[skillOutcome.missing][unit],
  }));
}
