import { checkShares, type CheckShare } from '../check-shares.ts';
import { fewestJobs } from '../excess-chances.ts';
import type { FleetJobs, Grouping } from '../fleet-jobs.ts';
import { jobsByUnit } from '../jobs-by-unit.ts';
import type { LaidTo } from '../laid-to.ts';
import type { Skill } from '../skill.ts';
import type { SkillRates } from '../skill-rates.ts';
import { explain, type StandingOut } from '../standing-out.ts';

/** How sure an excess is: beyond the many comparisons of the whole fleet; nine times of ten for this one alone; or not. */
export type Sureness = 'stands-out' | 'likely' | 'may-be-chance';

/** A skill in which more was found on a unit's jobs than others' jobs lead to expect. */
export interface CoachingTopic {
  readonly skill: Skill;
  readonly sureness: Sureness;
  /** Found less expected [jobs]. */
  readonly excess: number;
  /** How much of it is believed, once it is known how all differ. */
  readonly believed: BelievedExcess;
  readonly laidTo: LaidTo;
  /** The checks that make the excess, the leading ones first. */
  readonly checks: readonly CheckShare[];
}

/** What is believed of an excess, and its standard deviation [jobs]. */
export interface BelievedExcess {
  readonly jobs: number;
  readonly deviation: number;
}

/** A skill in which surely less was found. */
export interface GoingWell {
  readonly skill: Skill;
  /** Expected less found, nine times of ten at least [jobs]. */
  readonly surely: number;
}

/** More at once nobody can work on. */
const mostTopics = 3;
/** One-sided quantile of the normal distribution: nine times of ten. */
const normal90 = 1.281552;

/**
 * What to work on with a unit: the skills in which the excess is largest and surest, by as many jobs as it is nine times of ten at least.
 * Where none is sure, the largest one alone.
 *
 * @param all rates of every skill
 * @param standing who stands out in the fleet
 */
export function coachingTopics(
  jobs: FleetJobs,
  all: readonly SkillRates[],
  standing: readonly StandingOut[],
  grouping: Grouping,
  unit: number,
): CoachingTopic[] {
  return chosenTopics(all, standing, grouping, unit).map(({ rates, excess, sureness, standsOut, at }) => ({
    skill: rates.skill,
    sureness,
    excess,
    believed: standsOut === undefined ? drawnIn(jobs, rates, at, unit) : asFound(rates, at, unit),
    ...(standsOut ?? explain(jobs, rates, at, unit) ?? unexplained(jobs, rates, grouping, unit)),
  }));
}

/** How much a unit needs coaching: how sure the first of its topics is, and by how many jobs nine times of ten at least. */
export interface CoachingNeed {
  readonly sureness: Sureness;
  readonly surely: number;
}

/**
 * The need of a unit, without what its topics are laid to.
 *
 * @returns undefined where it has no topic
 */
export function coachingNeed(
  all: readonly SkillRates[],
  standing: readonly StandingOut[],
  grouping: Grouping,
  unit: number,
): CoachingNeed | undefined {
  return chosenTopics(all, standing, grouping, unit).at(0);
}

interface ChosenTopic extends CoachingNeed, Excess {
  readonly rates: SkillRates;
  readonly standsOut: StandingOut | undefined;
}

function chosenTopics(
  all: readonly SkillRates[],
  standing: readonly StandingOut[],
  grouping: Grouping,
  unit: number,
): ChosenTopic[] {
  const told = all.flatMap((rates): ChosenTopic[] => {
    const excess = excessOf(rates, grouping, unit);
    if (excess === undefined || excess.excess <= 0) return [];
    const standsOut = standing.find(
      (one) => one.grouping === grouping && one.unit === unit && one.skill.id === rates.skill.id,
    );
    const sureness: Sureness = standsOut !== undefined ? 'stands-out' : excess.surely > 0 ? 'likely' : 'may-be-chance';
    return [{ rates, ...excess, sureness, standsOut }];
  });
  const sure = told
    .filter(({ sureness }) => sureness !== 'may-be-chance')
    .sort((a, b) => Number(b.standsOut !== undefined) - Number(a.standsOut !== undefined) || b.surely - a.surely);
  return sure.length > 0 ? sure.slice(0, mostTopics) : told.sort((a, b) => b.surely - a.surely).slice(0, 1);
}

/** The skills in which surely less was found than is to be expected, the surest first. */
export function goingWell(all: readonly SkillRates[], grouping: Grouping, unit: number): GoingWell[] {
  return all
    .flatMap((rates) => {
      const better = excessOf(rates, grouping, unit, -1);
      return better !== undefined && better.surely > 0 ? [{ skill: rates.skill, surely: better.surely }] : [];
    })
    .sort((a, b) => b.surely - a.surely)
    .slice(0, mostTopics);
}

interface Excess {
  readonly at: number;
  readonly excess: number;
  /** How much of it there is nine times of ten [jobs]. */
  readonly surely: number;
}

/** An excess that stands out beyond all comparisons: luck has little part in it. */
function asFound({ groupings }: SkillRates, at: number, unit: number): BelievedExcess {
  const { found, expected } = groupings[at].tallies[unit];
  return { jobs: found - expected, deviation: Math.sqrt(groupings[at].excess.variances[unit]) };
}

/**
 * An excess drawn to nothing, the more, the less people differ and the fewer its jobs: whoever is looked at for a large one has been lucky,
 * too.
 */
function drawnIn(jobs: FleetJobs, { groupings }: SkillRates, at: number, unit: number): BelievedExcess {
  const { found, expected, byChance, variance } = groupings[at].tallies[unit];
  if (!(byChance > 0)) return { jobs: 0, deviation: 0 };
  const spreadOf = (place: number): number =>
    groupings[place].own?.spread ?? Math.sqrt(groupings[place].excess.usualVariance);
  // A crew differs by itself, and by who is in it.
  const usual = spreadOf(at) ** 2 + (at === 0 ? 0 : spreadOf(0) ** 2 / membersOf(jobs, groupings[at].grouping, unit));
  const unsure = variance / byChance ** 2;
  const share = usual / (usual + unsure);
  return { jobs: share * (found - expected), deviation: Math.sqrt(share * unsure) * byChance };
}

/** How many people did the jobs of a unit. */
function membersOf(jobs: FleetJobs, grouping: Grouping, unit: number): number {
  const people = new Set(Array.from(jobsByUnit(jobs.units[grouping])[unit], (job) => jobs.units.technician.of[job]));
  return Math.max(1, people.size);
}

/** @param side 1 for more than expected, −1 for less */
function excessOf({ groupings }: SkillRates, grouping: Grouping, unit: number, side: 1 | -1 = 1): Excess | undefined {
  const at = groupings.findIndex((one) => one.grouping === grouping);
  const rates = groupings.at(at);
  if (at < 0 || rates === undefined) return undefined;
  const { found, jobs, expected } = rates.tallies[unit];
  const variance = rates.excess.variances[unit];
  if (jobs < fewestJobs || !Number.isFinite(variance)) return undefined;
  const excess = side * (found - expected);
  return { at, excess, surely: excess - normal90 * Math.sqrt(variance) };
}

function unexplained(jobs: FleetJobs, { skill }: SkillRates, grouping: Grouping, unit: number) {
  const checks = skill.by === 'missing' ? [] : checkShares(jobs, skill, grouping, unit);
  return { laidTo: { verdict: 'not-separable', people: [], shared: [] } satisfies LaidTo, checks };
}
