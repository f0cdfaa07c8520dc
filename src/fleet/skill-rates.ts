import { crossedEffects, type CrossedCells, type GroupingEffects } from './statistics/crossed-effects.ts';
import type { Comparison } from './comparison.ts';
import { type ExcessChances, excessChances, fewestJobs } from './excess-chances.ts';
import { expectation } from './expectation.ts';
import type { FleetJobs, Grouping } from './fleet-jobs.ts';
import { fitShareSpread, type ShareSpread } from './statistics/shrunken-shares.ts';
import { type Skill, skillOutcomes } from './skill.ts';
import { firstAlike, skillCells, unitCombinations } from './skill-cells.ts';
import { type UnitCounts, unitCounts, type UnitTally } from './unit-counts.ts';

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
  readonly fleet: UnitCounts;
  /** Technicians, crews, then what the skill is done with. */
  readonly groupings: readonly GroupingRates[];
  /** What happened in each job, as `skillOutcomes` gives it. */
  readonly outcomes: Uint8Array;
  /** Expected chance of each job; NaN where it was not judged. */
  readonly chances: Float64Array;
  /** Jobs that share all units; undefined where nothing, or everything, was found. */
  readonly cells: CrossedCells | undefined;
}

export interface SkillRatesOptions {
  /** Whether what is each unit's own is looked for among the instruments, too; else among technicians and crews alone. */
  readonly withInstruments: boolean;
}

/** How units differ is not told from fewer. Common practice, no source. */
const fewestUnits = 3;
const manyPeople = 200;
/** Where each unit met more others than this on average, everybody used everything: effects apart are out of reach. */
const mostMet = 12;

/** The groupings that a skill is looked at by. */
export function groupingsOf(skill: Skill): readonly Grouping[] {
  return ['technician', 'crew', ...skill.instruments];
}

/** Rates of a skill for technicians, crews, and the instruments that it is done with. */
export function skillRates(jobs: FleetJobs, skill: Skill, { withInstruments }: SkillRatesOptions): SkillRates {
  const outcomes = skillOutcomes(jobs, skill);
  const { chances, comparisons } = expectation(jobs, outcomes, skill.factors);
  const of = groupingsOf(skill);
  const [fleet] = unitCounts({ ids: ['fleet'], of: new Int32Array(jobs.count) }, outcomes);
  const tallied = talliesOf(jobs, of, outcomes, comparisons);
  const isTold = fleet.found > 0 && fleet.found < fleet.jobs;
  const cells = isTold ? skillCells(jobs, unitCombinations(jobs, of), outcomes, chances) : undefined;
  const people = excessChances(tallied[0]);
  // How much many people differ is told by how their shares do.
  const isAsked = withInstruments || tallied[0].length < manyPeople;
  const own = cells && isAsked && tallied.some(canDiffer) ? ownEffects(cells, withInstruments ? of.length : 2) : [];
  const spread = own[0]?.spread ?? Math.sqrt(people.usualVariance);
  const groupings = of.map((grouping, at): GroupingRates => {
    const tallies = tallied[at];
    const ofMembers = at === 0 || cells === undefined ? [] : memberVariances(cells, at, spread);
    return {
      grouping,
      tallies,
      excess: at === 0 ? people : excessChances(tallies, ofMembers),
      spread: canDiffer(tallies) ? fitShareSpread(tallies) : undefined,
      own: own[at],
    };
  });
  return { skill, fleet, groupings, outcomes, chances, cells };
}

/** Tallies by grouping. Units that never part have the same, and are reckoned once. */
function talliesOf(
  jobs: FleetJobs,
  of: readonly Grouping[],
  outcomes: Uint8Array,
  comparisons: (grouping: Grouping) => Comparison[],
): UnitTally[][] {
  const { units } = unitCombinations(jobs, of);
  const alike = firstAlike(units);
  const tallied: UnitTally[][] = [];
  for (const [at, grouping] of of.entries()) {
    const counts = unitCounts(jobs.units[grouping], outcomes);
    if (alike[at] === at) {
      const compared = comparisons(grouping);
      tallied.push(counts.map((each, unit) => ({ ...each, ...compared[unit] })));
    } else {
      const same = new Map<number, UnitTally>();
      for (let cell = 0; cell < units[at].length; cell += 1)
        if (units[at][cell] >= 0) same.set(units[at][cell], tallied[alike[at]][units[alike[at]][cell]]);
      tallied.push(counts.map((each, unit) => ({ ...noComparison, ...same.get(unit), ...each })));
    }
  }
  return tallied;
}

/** Of a unit without a job. */
const noComparison: Comparison = { expected: 0, byChance: 0, variance: 0 };

/** Whether there are units enough, with jobs enough, to tell how units differ at all. */
function canDiffer(tallies: readonly UnitCounts[]): boolean {
  return tallies.filter(({ jobs }) => jobs >= fewestJobs).length >= fewestUnits;
}

/** By unit: variance of what is found since its people differ, though nothing is wrong with what they share [count²]. */
function memberVariances({ jobs, expectedLogit, units }: CrossedCells, grouping: number, spread: number): number[] {
  const people = new Map<number, Map<number, number>>();
  for (let cell = 0; cell < jobs.length; cell += 1) {
    const [unit, person] = [units[grouping][cell], units[0][cell]];
    if (unit < 0 || person < 0) continue;
    const chance = 1 / (1 + Math.exp(-expectedLogit[cell]));
    const of = people.get(unit) ?? new Map<number, number>();
    of.set(person, (of.get(person) ?? 0) + jobs[cell] * chance * (1 - chance));
    people.set(unit, of);
  }
  const variances: number[] = [];
  for (const [unit, of] of people)
    for (const one of of.values()) variances[unit] = (variances[unit] ?? 0) + (spread * one) ** 2;
  return variances;
}

/**
 * Effects of the first groupings, by grouping. Groupings that never part have one effect together, which each of them is given; a
 * grouping whose units met nearly all others is left out.
 */
function ownEffects(cells: CrossedCells, count: number): (GroupingEffects | undefined)[] {
  const alike = firstAlike(cells.units.slice(0, count));
  const apart = alike.filter((first, at) => first === at && (at === 0 || met(cells, at) <= mostMet));
  const { groupings, isConverged } = crossedEffects({
    ...cells,
    units: apart.map((at) => cells.units[at]),
    counts: apart.map((at) => cells.counts[at]),
  });
  // What was not found to an end is not told.
  if (!isConverged) return [];
  return alike.map((first, at) => {
    const effects = groupings[apart.indexOf(first)];
    return effects && ofUnits(effects, cells.units[first], cells.units[at], cells.counts[at]);
  });
}

/** How many people a unit of a grouping met, on average. */
function met({ units }: CrossedCells, grouping: number): number {
  const pairs = new Set<string>();
  const some = new Set<number>();
  for (let cell = 0; cell < units[0].length; cell += 1) {
    const [person, unit] = [units[0][cell], units[grouping][cell]];
    if (person < 0 || unit < 0) continue;
    pairs.add(`${person} ${unit}`);
    some.add(unit);
    some.add(-1 - person);
  }
  return some.size === 0 ? 0 : (2 * pairs.size) / some.size;
}

/** The same effects, in the order of other units that never part from them. */
function ofUnits(effects: GroupingEffects, units: Int32Array, others: Int32Array, count: number): GroupingEffects {
  if (units === others) return effects;
  const moved = (values: Float64Array): Float64Array => {
    const to = new Float64Array(count);
    for (let cell = 0; cell < units.length; cell += 1) if (others[cell] >= 0) to[others[cell]] = values[units[cell]];
    return to;
  };
  return { spread: effects.spread, effects: moved(effects.effects), deviations: moved(effects.deviations) };
}
