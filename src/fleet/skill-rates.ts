import { type CrossedCells, crossedEffects, type GroupingEffects } from './statistics/crossed-effects.ts';
import { type ExcessChances, excessChances, fewestJobs } from './excess-chances.ts';
import { expectation } from './expectation.ts';
import type { FleetJobs, Grouping } from './fleet-jobs.ts';
import { fitShareSpread, type ShareSpread } from './statistics/shrunken-shares.ts';
import { type Skill, skillOutcomes } from './skill.ts';
import { firstAlike, skillCells, unitCombinations } from './skill-cells.ts';
import { type UnitTally, unitTallies } from './unit-tallies.ts';

/** What one grouping shows of a skill, each list in the order of its units. */
export interface GroupingRates {
  readonly grouping: Grouping;
  readonly tallies: readonly UnitTally[];
  readonly excess: ExcessChances;
  /** How the true shares lie; undefined where nothing tells. */
  readonly spread: ShareSpread | undefined;
  /**
   * What is the units' own beside all other groupings, together with those that they never part from; undefined where it was not
   * looked for.
   */
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
  /** Jobs that share all units; undefined where it was not looked for what is each one's own, or nothing or everything was found. */
  readonly cells: CrossedCells | undefined;
}

/** How units differ is not told from fewer. Common practice, no source. */
const fewestUnits = 3;

/** The groupings that a skill is looked at by. */
export function groupingsOf(skill: Skill): readonly Grouping[] {
  return ['technician', 'crew', ...skill.instruments];
}

/**
 * Rates of a skill for technicians, crews, and the instruments that it is done with.
 *
 * @param withOwn whether it is looked for what is each unit's own beside the others, which takes as long as all else
 */
export function skillRates(jobs: FleetJobs, skill: Skill, withOwn: boolean): SkillRates {
  const outcomes = skillOutcomes(jobs, skill);
  const { chances, comparisons } = expectation(jobs, outcomes, skill.factors);
  const of = groupingsOf(skill);
  const [fleet] = unitTallies({ ids: ['fleet'], of: new Int32Array(jobs.count) }, outcomes, chances);
  const tallied = of.map((grouping) => unitTallies(jobs.units[grouping], outcomes, chances));
  const isTold = fleet.found > 0 && fleet.found < fleet.jobs;
  const cells = isTold && withOwn ? skillCells(jobs, unitCombinations(jobs, of), outcomes, chances) : undefined;
  const effects = cells && tallied.some(canDiffer) ? ownEffects(cells) : undefined;
  const groupings = of.map((grouping, at): GroupingRates => {
    const tallies = tallied[at];
    return {
      grouping,
      tallies,
      excess: excessChances(tallies, comparisons(grouping)),
      spread: canDiffer(tallies) ? fitShareSpread(tallies) : undefined,
      own: effects?.[at],
    };
  });
  return { skill, fleet, groupings, outcomes, chances, cells };
}

/** Whether there are units enough, with jobs enough, to tell how units differ at all. */
function canDiffer(tallies: readonly UnitTally[]): boolean {
  return tallies.filter(({ jobs }) => jobs >= fewestJobs).length >= fewestUnits;
}

/** Effects by grouping. Groupings that never part have one effect together, which each of them is given. */
function ownEffects(cells: CrossedCells): GroupingEffects[] {
  const alike = firstAlike(cells.units);
  const apart = alike.filter((first, at) => first === at);
  const { groupings } = crossedEffects({
    ...cells,
    units: apart.map((at) => cells.units[at]),
    counts: apart.map((at) => cells.counts[at]),
  });
  return alike.map((first, at) => ofUnits(groupings[apart.indexOf(first)], cells.units[first], cells.units[at]));
}

/** The same effects, in the order of other units that never part from them. */
function ofUnits(effects: GroupingEffects, units: Int32Array, others: Int32Array): GroupingEffects {
  if (units === others) return effects;
  const moved = (values: Float64Array): Float64Array => {
    const to = new Float64Array(Math.max(values.length, ...others.map((unit) => unit + 1)));
    for (let cell = 0; cell < units.length; cell += 1) if (others[cell] >= 0) to[others[cell]] = values[units[cell]];
    return to;
  };
  return { spread: effects.spread, effects: moved(effects.effects), deviations: moved(effects.deviations) };
}
