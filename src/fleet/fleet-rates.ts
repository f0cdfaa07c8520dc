import { falseDiscoveryShares } from './false-discovery.ts';
import type { FleetJobs, Grouping } from './fleet-jobs.ts';
import { laidTo, type LaidTo } from './laid-to.ts';
import { type Skill, skills } from './skill.ts';
import { type SkillRates, skillRates, type UnitRate } from './skill-rates.ts';

/**
 * Of those who are said to stand out, one in 25 may do so by chance. Set by simulation, no source: so that of fleets whose people are all
 * alike at most one in twenty has anybody stand out.
 */
export const falseDiscoveryLimit = 0.04;

/** A unit that stands out in a skill beyond what chance makes of so many units and skills. */
export interface StandingOut {
  readonly skill: Skill;
  readonly grouping: Grouping;
  readonly rate: UnitRate;
  /** Share of false ones among all that stand out at least so surely [ratio]. */
  readonly falseDiscoveryShare: number;
  readonly laidTo: LaidTo;
}

/** All skills of a fleet, and who stands out. */
export interface FleetRates {
  readonly skills: readonly SkillRates[];
  /** The surest first. */
  readonly standingOut: readonly StandingOut[];
  /** How many chances the false discoveries were reckoned over: of people, and of what they share. */
  readonly tested: { readonly people: number; readonly shared: number };
}

/**
 * Rates of every skill for everybody, and who stands out. False discoveries are held over all people and skills at once, and over all
 * crews, instruments and skills at once: crews are made of people, and would count them twice.
 *
 * @param onSkill told of each skill that is done
 */
export function fleetRates(jobs: FleetJobs, onSkill: (done: number, of: number) => void = () => undefined): FleetRates {
  const all = skills.map((skill, at) => {
    const rates = skillRates(jobs, skill);
    onSkill(at + 1, skills.length);
    return rates;
  });
  const [people, shared] = [true, false].map((wanted) => {
    const tested = all.flatMap((of) =>
      of.groupings.flatMap(({ grouping, rates }, at) =>
        (grouping === 'technician') === wanted ? rates.map((rate) => ({ of, grouping, at, rate })) : [],
      ),
    );
    const shares = falseDiscoveryShares(tested.map(({ rate }) => rate.chance ?? Number.NaN));
    const standing = tested.flatMap(({ of, grouping, at, rate }, index): StandingOut[] =>
      shares[index] <= falseDiscoveryLimit
        ? [
            {
              skill: of.skill,
              grouping,
              rate,
              falseDiscoveryShare: shares[index],
              laidTo: laidTo(of.cells, { grouping: at, unit: rate.unit }),
            },
          ]
        : [],
    );
    return { standing, tested: shares.filter((share) => !Number.isNaN(share)).length };
  });
  return {
    skills: all,
    standingOut: [...people.standing, ...shared.standing].sort(
      (a, b) => (a.rate.chance ?? 1) - (b.rate.chance ?? 1) || a.skill.id.localeCompare(b.skill.id),
    ),
    tested: { people: people.tested, shared: shared.tested },
  };
}
