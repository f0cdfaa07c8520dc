import type { Skill } from '../fleet/skill.ts';
import type { SkillRates } from '../fleet/skill-rates.ts';
import type { StandingOut } from '../fleet/standing-out.ts';
import { unitRate } from '../fleet/unit-rate.ts';
import type { UnitExcess } from '../pages/fleet-data.ts';
import type { UnitNames } from './fleet-names.ts';

/**
 * A unit that has an excess, as an output names it.
 *
 * @param rates of the skill
 */
export function excessReport(
  { skill, grouping, unit, laidTo, checks: found }: Omit<StandingOut, 'falseDiscoveryShare'>,
  { groupings }: SkillRates,
  unitOf: UnitNames,
): UnitExcess {
  const kinds = groupings.map(({ grouping: kind }) => kind);
  return {
    unit: unitOf(grouping, unit),
    skill: namedCounts(skill),
    rate: unitRate(groupings[kinds.indexOf(grouping)], unit),
    laidTo: {
      verdict: laidTo.verdict,
      people: laidTo.people.map((cell) => unitOf(kinds[cell.grouping], cell.unit)),
      shared: laidTo.shared.map((cell) => unitOf(kinds[cell.grouping], cell.unit)),
    },
    checks: found,
  };
}

/** A skill as an output names it. */
export function namedCounts({ id, title, counts }: Skill): Pick<Skill, 'id' | 'title' | 'counts'> {
  return { id, title, counts };
}
