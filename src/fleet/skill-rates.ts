import { type CrossedCells, crossedEffects, type GroupingEffects } from './crossed-effects.ts';
import { type ExcessChances, excessChances } from './excess-chances.ts';
import { expectation } from './expectation.ts';
import type { FleetJobs, Grouping } from './fleet-jobs.ts';
import { fitShareSpread, type ShareSpread } from './shrunken-shares.ts';
import { type Skill, skillOutcomes } from './skill.ts';
import { skillCells, unitCombinations } from './skill-cells.ts';
import { type UnitTally, unitTallies } from './unit-tallies.ts';

/** What one grouping shows of a skill, each list in the order of its units. */
export interface GroupingRates {
  readonly grouping: Grouping;
  readonly tallies: readonly UnitTally[];
  readonly excess: ExcessChances;
  /** How the true shares lie; undefined where nothing tells. */
  readonly spread: ShareSpread | undefined;
  /** What is the units' own beside all other groupings; undefined where it was not looked for. */
  readonly own: GroupingEffects | undefined;
}

/** A skill over a fleet. */
export interface SkillRates {
  readonly skill: Skill;
  readonly fleet: UnitTally;
  /** Technicians, crews, then what the skill is done with. */
  readonly groupings: readonly GroupingRates[];
  /** What happened in each job, as `skillOutcomes` gives it. */
  readonly outcomes: Uint8Array;
  /** Expected chance of each job; NaN where it was not judged. */
  readonly chances: Float64Array;
  /** Jobs that share all units; undefined where nothing, or everything, was found. */
  readonly cells: CrossedCells | undefined;
}

/** The groupings that a skill is looked at by. */
export function groupingsOf(skill: Skill): readonly Grouping[] {
  return ['technician', 'crew', ...skill.instruments];
}

/** Rates of a skill for technicians, crews, and the instruments that it is done with. */
export function skillRates(jobs: FleetJobs, skill: Skill): SkillRates {
  const outcomes = skillOutcomes(jobs, skill);
  const { chances, comparisons } = expectation(jobs, outcomes, skill.factors);
  const [fleet] = unitTallies({ ids: ['fleet'], of: new Int32Array(jobs.count) }, outcomes, chances);
  const isTold = fleet.found > 0 && fleet.found < fleet.jobs;
  const of = groupingsOf(skill);
  const cells = isTold ? skillCells(jobs, unitCombinations(jobs, of), outcomes, chances) : undefined;
  const effects = cells && crossedEffects(cells);
  const groupings = of.map((grouping, at): GroupingRates => {
    const tallies = unitTallies(jobs.units[grouping], outcomes, chances);
    return {
      grouping,
      tallies,
      excess: excessChances(tallies, comparisons(grouping)),
      spread: fitShareSpread(tallies),
      own: effects?.groupings[at],
    };
  });
  return { skill, fleet, groupings, outcomes, chances, cells };
}
