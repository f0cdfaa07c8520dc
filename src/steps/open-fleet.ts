import { dateOf } from '../numerics/calendar-day.ts';
import { checks } from '../checks/checks.ts';
import type { FleetJobs } from '../fleet/fleet-jobs.ts';
import { SharedRates } from '../fleet/shared-rates.ts';
import type { FleetSummary } from '../pages/fleet-data.ts';
import { readFleetJobs } from '../store/fleet-jobs.ts';
import type { Store } from '../store/store.ts';
import { unitNames, type UnitNames } from './fleet-names.ts';
import { type PeopleNames, peopleNames } from './people-names.ts';
import { policyJudged } from './policy-judged.ts';

/** A fleet that was read, with what all of its reports need; rates are worked out when they are asked for. */
export interface OpenFleet {
  readonly jobs: FleetJobs;
  readonly summary: FleetSummary;
  readonly names: PeopleNames;
  readonly unitOf: UnitNames;
  /** Whether people and crews are named by code. */
  readonly codes: boolean;
  /** Without what is the own of instruments. */
  readonly rates: SharedRates;
}

/**
 * Reads all judged jobs of a store, by the policy judged last, and how people are named.
 *
 * @throws DryholdError `not-judged`
 */
export async function openFleet(store: Store, codes: boolean): Promise<OpenFleet> {
  const policy = await policyJudged(store);
  const names = await peopleNames(store, codes);
  const { jobs, undated } = await readFleetJobs(
    store,
    policy.id,
    checks.map(({ id }) => id),
  );
  return {
    jobs,
    names,
    unitOf: unitNames(jobs, names, codes),
    codes,
    rates: new SharedRates(jobs, { withInstruments: false }),
    summary: {
      policyId: policy.id,
      period: { from: dayOfJob(jobs, 0), to: dayOfJob(jobs, jobs.count - 1) },
      jobs: jobs.count,
      undated,
      technicians: jobs.units.technician.ids.length,
      crews: jobs.units.crew.ids.length,
    },
  };
}

/** The day of a job by its place, YYYY-MM-DD; empty where there is none. */
export function dayOfJob({ count, days }: FleetJobs, place: number): string {
  return count === 0 ? '' : dateOf(days[place]);
}
