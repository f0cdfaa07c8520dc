import type { FleetJobs, Grouping } from './fleet-jobs.ts';
import type { Tally } from './statistics/shrunken-shares.ts';
import type { Skill } from './skill.ts';

/** How often one check of a skill flags the jobs of a unit, and those of all. */
export interface CheckShare {
  readonly checkId: string;
  readonly unit: Tally;
  readonly all: Tally;
}

/** The checks of a skill that flagged more jobs of a unit than of all, those that make the most of its excess first. */
export function checkShares(jobs: FleetJobs, skill: Skill, grouping: Grouping, unit: number): CheckShare[] {
  const { outcomes } = jobs;
  const { of } = jobs.units[grouping];
  const shares = skill.checkIds.map((checkId) => {
    const bit = outcomes.checkIds.indexOf(checkId);
    const [half, mask] = [bit >> 5, 1 << (bit & 31)];
    const [own, all] = [
      { found: 0, jobs: 0 },
      { found: 0, jobs: 0 },
    ];
    for (let job = 0; job < jobs.count; job += 1) {
      if ((outcomes.judged[2 * job + half] & mask) === 0) continue;
      const found = (outcomes.found[2 * job + half] & mask) === 0 ? 0 : 1;
      all.jobs += 1;
      all.found += found;
      if (of[job] !== unit) continue;
      own.jobs += 1;
      own.found += found;
    }
    return { checkId, unit: own, all };
  });
  return shares.filter((share) => excess(share) > 0).sort((a, b) => excess(b) - excess(a));
}

/** The checks that make half of an excess, and so tell what could cause it. */
export function leadingChecks(shares: readonly CheckShare[]): string[] {
  const all = shares.reduce((sum, share) => sum + excess(share), 0);
  let told = 0;
  return shares
    .filter((share) => {
      const leads = told < all / 2;
      told += excess(share);
      return leads;
    })
    .map(({ checkId }) => checkId);
}

/** How many more jobs a check flagged than if it flagged them as it does all. */
function excess({ unit, all }: CheckShare): number {
  return all.jobs === 0 ? 0 : unit.found - (unit.jobs * all.found) / all.jobs;
}
