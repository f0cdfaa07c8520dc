import type { PairedCurve } from '../charts/paired-trace.ts';
import { checkNamed } from '../checks/checks.ts';
import type { CheckGroup } from '../checks/check.ts';
import { type GoodExample, goodExample } from '../fleet/coaching/good-example.ts';
import type { FleetJobs } from '../fleet/fleet-jobs.ts';
import type { TopicPair } from '../pages/coach-data.ts';
import type { JobEvidence } from '../pages/job-evidence-data.ts';
import { jobIdsAt } from '../store/job-ids-at.ts';
import { type Logged, readLoggedJobs } from '../store/logged-jobs.ts';
import type { Store } from '../store/store.ts';
import { jobEvidence } from './job-evidence.ts';
import { dayOfJob, type OpenFleet } from './open-fleet.ts';

/** By what the jobs of a topic are shown. */
const shownBy: Readonly<Record<CheckGroup, Logged>> = {
  'pressure-test': 'pressure',
  evacuation: 'vacuum',
  rise: 'vacuum',
  charge: 'charge',
  'run-test': 'run',
  recording: 'vacuum',
};

/** A topic whose recording is wanted beside a good one. */
export interface PairedTopic {
  /** The check that leads it. */
  readonly checkId: string;
  /** What happened in each job of the fleet in the skill. */
  readonly outcomes: Uint8Array;
  /** Places of the jobs that show it, the best to show first. */
  readonly jobs: readonly number[];
}

/**
 * The recordings of jobs that show topics, each beside that of a like job that went well.
 *
 * @param topics undefined for one that no recording shows
 * @returns by topic; null where no two such recordings are there
 */
export async function topicPairs(
  store: Store,
  { jobs, names, unitOf, summary }: OpenFleet,
  topics: readonly (PairedTopic | undefined)[],
): Promise<(TopicPair | null)[]> {
  const isAsked = topics.some((topic) => topic !== undefined);
  const logged = isAsked ? await readLoggedJobs(store, jobs.count) : undefined;
  const pairs = topics.map((topic) => topic && logged && pairedJobs(jobs, topic, logged));
  const ids = await jobIdsAt(
    store,
    pairs.flatMap((pair) => (pair === undefined ? [] : [pair.own, pair.good.job])),
  );
  if (ids.size === 0) return topics.map(() => null);
  await store.fill('paired', ids.values());
  const evidence = await jobEvidence(store, 'paired', { policyId: summary.policyId, names });
  // Recordings alone, which no units are said of.
  const byId = new Map(evidence.map((job) => job('si')).map((job) => [job.jobId, job]));
  return pairs.map((pair): TopicPair | null => {
    if (pair === undefined) return null;
    const { checkId, shown, own, good } = pair;
    const [ownJob, goodJob] = [own, good.job].map((place) => byId.get(ids.get(place) ?? ''));
    if (ownJob === undefined || goodJob === undefined) return null;
    const both = shownOf(shown, checkId, ownJob, goodJob);
    const technician = jobs.units.technician.of[good.job];
    return both === null
      ? null
      : {
          ownJobId: ownJob.jobId,
          goodJobId: goodJob.jobId,
          goodDay: dayOfJob(jobs, good.job),
          goodBy: technician < 0 ? null : unitOf('technician', technician),
          alike: good.alike,
          shown: both,
        };
  });
}

/** Places of a job that shows a topic and of a like one that went well, both of them recorded. */
interface PairedJobs {
  readonly checkId: string;
  readonly shown: Logged;
  readonly own: number;
  readonly good: GoodExample;
}

function pairedJobs(
  jobs: FleetJobs,
  { checkId, outcomes, jobs: candidates }: PairedTopic,
  logged: Readonly<Record<Logged, Uint8Array>>,
): PairedJobs | undefined {
  const group = checkNamed(checkId)?.group;
  if (group === undefined) return undefined;
  const shown = shownBy[group];
  const isShown = (job: number): boolean => logged[shown][job] === 1;
  const own = candidates.find(isShown);
  const good = own === undefined ? undefined : goodExample(jobs, outcomes, own, isShown);
  return own === undefined || good === undefined ? undefined : { checkId, shown, own, good };
}

function shownOf(shown: Logged, checkId: string, own: JobEvidence, good: JobEvidence): TopicPair['shown'] | null {
  if (shown === 'charge')
    return own.scale === null || good.scale === null ? null : { quantity: 'charge', own: own.scale, good: good.scale };
  const quantity = shown === 'run' ? (checkId === 'superheat-off' ? 'superheat' : 'subcooling') : shown;
  const [ownCurve, goodCurve] = [own, good].map((job) => curveOf(quantity, job));
  return ownCurve === null || goodCurve === null ? null : { quantity, own: ownCurve, good: goodCurve };
}

function curveOf(quantity: 'pressure' | 'vacuum' | 'superheat' | 'subcooling', job: JobEvidence): PairedCurve | null {
  if (quantity === 'vacuum') return job.trace && { elapsedS: job.trace.elapsedS, values: job.trace.vacuumPa };
  if (quantity === 'pressure') {
    const test = job.pressureTest;
    return test && { elapsedS: test.trace.elapsedS, values: test.trace.testPa.map((pa) => pa - test.atmospherePa) };
  }
  if (job.run === null) return null;
  const { elapsedS, dewK, suctionLineK, bubbleK, liquidLineK } = job.run.trace;
  const [upper, lower] = quantity === 'superheat' ? [suctionLineK, dewK] : [bubbleK, liquidLineK];
  const values = elapsedS.map((_, at) => {
    const [high, low] = [upper[at] ?? null, lower[at] ?? null];
    return high === null || low === null ? null : high - low;
  });
  return { elapsedS, values };
}
