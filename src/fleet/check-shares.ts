import type { FleetJobs, Grouping } from './fleet-jobs.ts';
import { jobsByUnit } from './jobs-by-unit.ts';
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
  const own = jobsByUnit(jobs.units[grouping]).at(unit) ?? new Int32Array();
  const shares = skill.checkIds.map((checkId) => {
    const bit = jobs.outcomes.checkIds.indexOf(checkId);
    return { checkId, unit: tallyOf(jobs, bit, own), all: tallyOfAll(jobs, bit) };
  });
  return shares.filter((share) => excess(share) > 0).sort((a, b) => excess(b) - excess(a));
}

const known = new WeakMap<FleetJobs, Tally[]>();

/** How often a check flagged all jobs; counted once. */
function tallyOfAll(jobs: FleetJobs, bit: number): Tally {
  const tallies = known.get(jobs) ?? [];
  known.set(jobs, tallies);
  tallies[bit] ??= tallyOf(
    jobs,
    bit,
    Int32Array.from({ length: jobs.count }, (_, job) => job),
  );
  return tallies[bit];
}

/** How often a check, by its bit, flagged some jobs. */
function tallyOf({ outcomes }: FleetJobs, bit: number, of: Int32Array): Tally {
  const [half, mask] = [bit >> 5, 1 << (bit & 31)];
  const tally = { found: 0, jobs: 0 };
  for (let at = 0; at < of.length; at += 1) {
    const place = 2 * of[at] + half;
    if ((outcomes.judged[place] & mask) === 0) continue;
    tally.jobs += 1;
    if ((outcomes.found[place] & mask) !== 0) tally.found += 1;
  }
  return tally;
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
