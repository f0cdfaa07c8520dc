import type { Comparison } from './comparison.ts';
import type { Units } from './fleet-jobs.ts';
import { skillOutcome } from './skill.ts';
import type { Tally } from './statistics/shrunken-shares.ts';

/** What one unit's jobs came to. `jobs` are those that were judged. */
export interface UnitCounts extends Tally {
  readonly notEvaluated: number;
  readonly missing: number;
}

/** The same beside what the jobs of all others lead to expect. */
export interface UnitTally extends UnitCounts, Comparison {}

/**
 * What happened in the jobs of each unit of a grouping, in the order of their ids.
 *
 * @param outcomes of each job, as `skillOutcomes` gives them
 */
export function unitCounts(units: Units, outcomes: Uint8Array): UnitCounts[] {
  const count = units.ids.length;
  // By outcome, then by unit.
  const counts = new Int32Array(4 * count);
  for (let job = 0; job < outcomes.length; job += 1)
    if (units.of[job] >= 0) counts[outcomes[job] * count + units.of[job]] += 1;
  const of = (outcome: number, unit: number): number => counts[outcome * count + unit];
  return units.ids.map((_, unit) => ({
    found: of(skillOutcome.found, unit),
    jobs: of(skillOutcome.found, unit) + of(skillOutcome.clean, unit),
    notEvaluated: of(skillOutcome.notEvaluated, unit),
    missing: of(skillOutcome.missing, unit),
  }));
}
