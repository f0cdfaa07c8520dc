import { type Claim, claim } from '../claim.ts';
import { copyKinds } from '../../../src/simulate/mishaps/copy-kinds.ts';
import type { Store } from '../../../src/store/store.ts';
import type { FleetJob, JudgedFleet } from './judged-fleet.ts';

/** Jobs whose pressures were handed in with another one, and what the search for the same curve says. */
export async function copyClaims({ store, jobs }: JudgedFleet): Promise<Claim[]> {
  const pairs = await matchedPairs(store);
  const byId = new Map(jobs.map((one) => [one.truth.job_id, one]));
  const copies = jobs.filter(({ truth }) => truth.copied_from_job_id !== undefined);
  const matched = new Set(pairs.flatMap(([one, two]) => [`${one} ${two}`, `${two} ${one}`]));
  const isFound = ({ truth }: FleetJob) => matched.has(`${truth.job_id} ${truth.copied_from_job_id}`);
  const recall = (what: string, of: readonly FleetJob[]) =>
    claim(
      what,
      of.map((one) => ({
        plan: one.plan,
        value: isFound(one),
        badness: isFound(one) ? 0 : 1,
        says: `${one.truth.copy_kind} of ${one.truth.copied_from_job_id}, ${one.truth.copied_columns}; ${one.facts.compared_curves ?? 0} of ${one.facts.pressure_curves ?? 0} curves show enough to be compared`,
        isUntold: (one.facts.compared_curves ?? 0) === 0,
      })),
    );
  return [
    recall('copies found with the job that they are of: recall', copies),
    ...Object.keys(copyKinds).map((kind) =>
      recall(
        `… ${kind}`,
        copies.filter(({ truth }) => truth.copy_kind === kind),
      ),
    ),
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
