import { jobCurves } from '../../../src/facts/recording/job-curves.ts';
import type { MatchedColumn } from '../../../src/records/recording-columns.ts';
import { streamJobReadings } from '../../../src/store/job-stream.ts';
import { curvePrint } from '../../../src/traces/curve/curve-print.ts';
import { type Claim, claim } from '../claim.ts';
import { copyKinds } from '../../../src/simulate/mishaps/copy-kinds.ts';
import type { Store } from '../../../src/store/store.ts';
import type { FleetJob, JudgedFleet } from './judged-fleet.ts';

const curveNames = { vacuum_pa: 'vacuum', test_pressure_pa: 'pressure test' } as const;

/** Jobs whose pressures were handed in with another one, and what the search for the same curve says. */
export async function copyClaims({ store, jobs }: JudgedFleet): Promise<Claim[]> {
  const pairs = await matchedPairs(store);
  const byId = new Map(jobs.map((one) => [one.truth.job_id, one]));
  const copies = jobs.filter(({ truth }) => truth.copied_from_job_id !== undefined);
  const faces = await comparableCurves(store, copies);
  const matched = new Set(pairs.flatMap(([one, two]) => [`${one} ${two}`, `${two} ${one}`]));
  const recall = (what: string, column: MatchedColumn, of: readonly FleetJob[]) =>
    claim(
      what,
      of
        .filter(({ truth }) => truth.copied_columns?.split('+').includes(column))
        .map(({ plan, truth }) => {
          const value = matched.has(`${truth.job_id} ${truth.copied_from_job_id}`);
          const isUntold = !faces.has(`${truth.job_id} ${column}`);
          const says = `${truth.copy_kind} of ${truth.copied_from_job_id}${isUntold ? ', shows too little to be compared' : ''}`;
          return { plan, value, badness: value ? 0 : isUntold ? 1 : 2, says, isUntold: isUntold && !value };
        }),
    );
  const columns = Object.keys(curveNames) as MatchedColumn[];
  return [
    ...columns.flatMap((column) => [
      recall(`copied ${curveNames[column]} curves, jobs found with the one that they are of: recall`, column, copies),
      ...Object.keys(copyKinds).map((kind) =>
        recall(
          `… ${kind}`,
          column,
          copies.filter(({ truth }) => truth.copy_kind === kind),
        ),
      ),
    ]),
    claim(
      'pairs of jobs that are matched: one is a copy of the other, or both of a third: precision',
      pairs.map(([one, two]) => {
        const value = originOf(byId, one) === originOf(byId, two);
        const plan = byId.get(one)?.plan ?? { seed: 0, number: 0, kind: one };
        return { plan, value, badness: value ? 0 : 1, says: `${one} and ${two}` };
      }),
    ),
    claim(
      'honest jobs matched with another honest job',
      jobs
        .filter((one) => !copies.includes(one))
        .map((one) => {
          const { job_id: id } = one.truth;
          const value = pairs.some(
            (pair) => pair.includes(id) && originOf(byId, pair[0]) === pair[0] && originOf(byId, pair[1]) === pair[1],
          );
          return { plan: one.plan, value, badness: value ? 1 : 0, says: 'matched' };
        }),
    ),
  ];
}

/** Job and column of the curves that show enough to be told from others. */
async function comparableCurves(store: Store, jobs: readonly FleetJob[]): Promise<Set<string>> {
  await store.fill(
    'copied_jobs',
    jobs.map(({ truth }) => truth.job_id),
  );
  const comparable = new Set<string>();
  for await (const { jobId, ...readings } of streamJobReadings(store, 'copied_jobs'))
    for (const { column, elapsedS, pa } of jobCurves(readings))
      if (curvePrint(elapsedS, pa)?.hasFace) comparable.add(`${jobId} ${column}`);
  return comparable;
}

async function matchedPairs(store: Store): Promise<[string, string][]> {
  const rows = await store.rows<{ job_id: string; other_job_id: string }>(
    `SELECT DISTINCT job_id, other_job_id FROM curve_matches JOIN truth USING (job_id) ORDER BY ALL`,
  );
  return rows.map(({ job_id: one, other_job_id: two }) => [one, two]);
}

/** The job that a curve was logged in first. */
function originOf(byId: ReadonlyMap<string, FleetJob>, jobId: string): string {
  const from = byId.get(jobId)?.truth.copied_from_job_id;
  return from === undefined ? jobId : originOf(byId, from);
}
