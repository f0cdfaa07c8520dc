import { falseDiscoveryShares } from './statistics/false-discovery.ts';
import { type CheckShare, checkShares, leadingChecks } from './check-shares.ts';
import type { FleetJobs, Grouping } from './fleet-jobs.ts';
import { laidTo, type LaidTo } from './laid-to.ts';
import { gearOf, type Skill } from './skill.ts';
import type { SkillRates } from './skill-rates.ts';

/**
 * Of those who are said to stand out, one in 25 may do so by chance. Set by simulation, no source: so that of fleets whose people are all
 * alike at most one in twenty has anybody stand out.
 */
export const falseDiscoveryLimit = 0.04;

/** A unit that stands out in a skill beyond what chance makes of so many units and skills. */
export interface StandingOut {
  readonly skill: Skill;
  readonly grouping: Grouping;
  readonly unit: number;
  /** Share of false ones among all that stand out at least so surely [ratio]. */
  readonly falseDiscoveryShare: number;
  readonly laidTo: LaidTo;
  /** The checks that make its excess. */
  readonly checks: readonly CheckShare[];
}

/** Who stands out, the surest first, and among how many chances they were looked for. */
export interface AllStandingOut {
  readonly units: readonly StandingOut[];
  readonly tested: { readonly people: number; readonly shared: number };
}

/**
 * Who stands out for the worse. False discoveries are held over all people and skills at once, and over all crews, instruments and
 * skills at once: crews are made of people, and would count them twice.
 */
export function standingOut(jobs: FleetJobs, skills: readonly SkillRates[]): AllStandingOut {
  const [people, shared] = [true, false].map((arePeople) => {
    const tested = skills.flatMap((rates) =>
      rates.groupings.flatMap((of, at) =>
        (of.grouping === 'technician') === arePeople
          ? of.tallies.map((_, unit) => ({ rates, of, at, unit, chance: of.excess.chances[unit] }))
          : [],
      ),
    );
    const shares = falseDiscoveryShares(tested.map(({ chance }) => chance));
    const standing = tested.flatMap(({ rates, of, at, unit, chance }, index) => {
      if (!(shares[index] <= falseDiscoveryLimit)) return [];
      const explained = explain(jobs, rates, at, unit);
      if (explained === undefined) return [];
      const { skill } = rates;
      return [
        { chance, unit: { skill, grouping: of.grouping, unit, falseDiscoveryShare: shares[index], ...explained } },
      ];
    });
    return { standing, tested: shares.filter((share) => !Number.isNaN(share)).length };
  });
  return {
    units: [...people.standing, ...shared.standing].sort((a, b) => a.chance - b.chance).map(({ unit }) => unit),
    tested: { people: people.tested, shared: shared.tested },
  };
}

/**
 * The checks that make an excess, and to whom or what it is laid.
 *
 * @param at place of the grouping among those of the rates
 * @returns undefined where nothing can be told, or where it is gear that the leading checks would not notice: no cause, whatever else it
 *   was there for
 */
export function explain(
  jobs: FleetJobs,
  { skill, cells, groupings }: SkillRates,
  at: number,
  unit: number,
): Pick<StandingOut, 'laidTo' | 'checks'> | undefined {
  if (cells === undefined) return undefined;
  const { grouping } = groupings[at];
  const found = skill.by === 'missing' ? [] : checkShares(jobs, skill, grouping, unit);
  const gear = new Set<Grouping>(['crew', ...gearOf(leadingChecks(found))]);
  if (grouping !== 'technician' && !gear.has(grouping)) return undefined;
  const mayCause = (place: number): boolean => gear.has(groupings[place].grouping);
  return { laidTo: laidTo(cells, { grouping: at, unit }, mayCause), checks: found };
}
