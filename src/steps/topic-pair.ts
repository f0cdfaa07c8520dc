import type { PairedCurve } from '../charts/paired-trace.ts';
import { checkNamed } from '../checks/checks.ts';
import type { CheckGroup } from '../checks/check.ts';
import { goodExample } from '../fleet/coaching/good-example.ts';
import type { TopicPair } from '../pages/coach-data.ts';
import type { JobEvidence } from '../pages/service-manager-data.ts';
import type { Store } from '../store/store.ts';
import type { UnitSystem } from '../units/display.ts';
import { jobEvidence } from './job-evidence.ts';
import { dayOfJob, type OpenFleet } from './open-fleet.ts';

/** By what the jobs of a topic are shown, and the fact that tells whether it was logged. */
const shownBy: Readonly<Record<CheckGroup, { readonly shown: ShownKind; readonly column: string }>> = {
  'pressure-test': { shown: 'pressure', column: 'pressure_readings' },
  evacuation: { shown: 'vacuum', column: 'vacuum_readings' },
  rise: { shown: 'vacuum', column: 'vacuum_readings' },
  charge: { shown: 'charge', column: 'scale_readings' },
  'run-test': { shown: 'run', column: 'run_readings' },
  recording: { shown: 'vacuum', column: 'vacuum_readings' },
};

type ShownKind = 'pressure' | 'vacuum' | 'charge' | 'run';

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
 * The recording of a job that shows a topic, beside that of a like job that went well.
 *
 * @returns null where no two such recordings are there
 */
export async function topicPair(
  store: Store,
  { jobs, names, unitOf, summary }: OpenFleet,
  { checkId, outcomes, jobs: candidates }: PairedTopic,
  units: UnitSystem,
): Promise<TopicPair | null> {
  const group = checkNamed(checkId)?.group;
  if (group === undefined) return null;
  const { shown, column } = shownBy[group];
  const logged = new Set(
    (
      await store.rows<{ place: number }>(
        `SELECT f.rowid::INTEGER AS place FROM temp.fleet_jobs f JOIN facts USING (job_id) WHERE ${column} > 2`,
      )
    ).map(({ place }) => place),
  );
  const own = candidates.find((job) => logged.has(job));
  if (own === undefined) return null;
  const good = goodExample(jobs, outcomes, own, (job) => logged.has(job));
  if (good === undefined) return null;
  await store.run(
    `CREATE OR REPLACE TEMP TABLE paired AS SELECT job_id FROM temp.fleet_jobs WHERE rowid IN (${own}, ${good.job})
     ORDER BY rowid = ${good.job}`,
  );
  const [ownJob, goodJob] = await jobEvidence(store, 'paired', { policyId: summary.policyId, units, names });
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
}

function shownOf(shown: ShownKind, checkId: string, own: JobEvidence, good: JobEvidence): TopicPair['shown'] | null {
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
