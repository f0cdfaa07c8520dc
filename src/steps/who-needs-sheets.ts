import { type CoachingNeed, coachingNeed, type Sureness } from '../fleet/coaching/coaching-topics.ts';
import { jobsByUnit } from '../fleet/jobs-by-unit.ts';
import type { OpenFleet } from './open-fleet.ts';
import type { ResolvedUnit } from './resolve-unit.ts';

const rank: Readonly<Record<Sureness, number>> = { 'stands-out': 0, likely: 1, 'may-be-chance': 2 };

/**
 * The technicians and crews who need coaching the most: those of whom something stands out, then those of whom something is likely, each
 * by how many jobs it surely is; who has nothing to work on comes last, who has no judged job is not there.
 */
export function whoNeedsSheets({ jobs, rates }: OpenFleet, most: number): ResolvedUnit[] {
  const [all, standing] = [rates.all(), rates.standingOut().units];
  const whom = (['technician', 'crew'] as const).flatMap((grouping) =>
    jobsByUnit(jobs.units[grouping]).flatMap((own, unit) =>
      own.length === 0 ? [] : [{ grouping, unit, need: coachingNeed(all, standing, grouping, unit) }],
    ),
  );
  return whom
    .sort((a, b) => rankOf(a.need) - rankOf(b.need) || (b.need?.surely ?? 0) - (a.need?.surely ?? 0))
    .slice(0, most)
    .map(({ grouping, unit }) => ({ grouping, unit }));
}

function rankOf(need: CoachingNeed | undefined): number {
  return need === undefined ? Object.keys(rank).length : rank[need.sureness];
}
