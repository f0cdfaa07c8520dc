import type { TopicJob } from '../pages/coach-data.ts';
import { jobIdsAt } from '../store/job-ids-at.ts';
import type { Store } from '../store/store.ts';
import type { InUnits } from '../units/in-units.ts';
import { type FlaggedCheck, flaggedChecks } from './flagged-checks.ts';
import { dayOfJob, type OpenFleet } from './open-fleet.ts';

/** Jobs that are told of a topic, and among how many of the latest they are looked for. */
const mostJobs = 4;
const latestJobs = 40;

/** A topic whose jobs are wanted. */
export interface ShownTopic {
  /** Places of the jobs on which it was found, the latest first. */
  readonly found: readonly number[];
  /** The checks that lead it, the first one the most. */
  readonly leading: readonly string[];
  /** Whether it is that there is no log. */
  readonly isMissing: boolean;
}

/** A job that shows a topic, by its place among the jobs of the fleet. */
export interface ShownJob {
  readonly place: number;
  readonly told: Omit<TopicJob, 'text'>;
  readonly text: InUnits<TopicJob['text']>;
}

/** The jobs that show topics best, by topic: flagged by its leading checks, failed before suspect, then the latest. */
export async function topicJobs(store: Store, fleet: OpenFleet, topics: readonly ShownTopic[]): Promise<ShownJob[][]> {
  const looked = topics.map(({ found }) => found.slice(0, latestJobs));
  const ids = await jobIdsAt(store, looked.flat());
  const flagged = await flaggedChecks(store, fleet.summary.policyId, [...ids.values()]);
  return topics.map(({ leading, isMissing }, topic) =>
    looked[topic]
      .flatMap((place): ShownJob[] => {
        const jobId = ids.get(place) ?? '';
        const of = (flagged.get(jobId) ?? []).filter(({ checkId }) => leading.includes(checkId));
        const worst = isMissing ? noLog(leading[0]) : of.toSorted((a, b) => rank(a, leading) - rank(b, leading))[0];
        if (worst === undefined) return [];
        const { checkId, outcome, text } = worst;
        return [{ place, told: { ...jobTold(fleet, place), jobId, checkId, outcome }, text }];
      })
      .sort((a, b) => rank(a.told, leading) - rank(b.told, leading) || b.place - a.place)
      .slice(0, mostJobs),
  );
}

function jobTold({ jobs, unitOf }: OpenFleet, place: number): Pick<TopicJob, 'day' | 'technician'> {
  const technician = jobs.units.technician.of[place];
  return { day: dayOfJob(jobs, place), technician: technician < 0 ? null : unitOf('technician', technician) };
}

/** What failed before what is suspect, then by the lead. */
function rank({ outcome, checkId }: Pick<TopicJob, 'outcome' | 'checkId'>, leading: readonly string[]): number {
  return (outcome === 'suspect' ? leading.length : 0) + leading.indexOf(checkId);
}

function noLog(checkId: string): Omit<FlaggedCheck, 'outcome'> & Pick<TopicJob, 'outcome'> {
  return { checkId, outcome: 'missing', text: () => '' };
}
