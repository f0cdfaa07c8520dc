import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Outcome } from '../../../src/checks/check.ts';
import type { Facts } from '../../../src/records/tables/facts.ts';
import type { Job } from '../../../src/records/tables/jobs.ts';
import type { LineSet } from '../../../src/records/tables/line-sets.ts';
import { type SimulateFleetOptions, simulateFleet } from '../../../src/simulate/fleet.ts';
import type { Truth } from '../../../src/simulate/truth.ts';
import { writeBundle } from '../../../src/simulate/write-bundle.ts';
import { ingest } from '../../../src/steps/ingest.ts';
import { judge } from '../../../src/steps/judge.ts';
import { type PlainRow, Store } from '../../../src/store/store.ts';
import type { TrialName } from '../claim.ts';

/** What a check said of a job. */
export interface FleetFinding {
  readonly outcome: Outcome;
  readonly message: string;
}

/** A job of a fleet that was taken in and judged, with its truth. */
export interface FleetJob {
  readonly plan: TrialName;
  readonly job: Job;
  readonly lineSets: readonly LineSet[];
  readonly truth: Truth;
  readonly facts: Partial<Facts>;
  readonly findings: ReadonlyMap<string, FleetFinding>;
}

/** A judged fleet: its store, in which the tables of the truth stand as temporary ones, and its jobs. */
export interface JudgedFleet {
  readonly seed: number;
  readonly store: Store;
  readonly jobs: readonly FleetJob[];
  /** Those whose log is their own and as it was recorded. */
  readonly ownJobs: readonly FleetJob[];
}

/** Tables of the truth in a bundle. */
const truthTables = ['truth', 'callback_truth', 'cylinder_truth', 'appliance_truth'] as const;

/**
 * Simulates a fleet, writes it as a bundle, takes that in and judges it by the product's own steps, and puts the truth beside it.
 *
 * @param work what is asked of it; the store is gone afterwards
 */
export async function withJudgedFleet<Result>(
  options: SimulateFleetOptions,
  onProgress: (says: string) => void,
  work: (fleet: JudgedFleet) => Promise<Result>,
): Promise<Result> {
  const folder = mkdtempSync(join(tmpdir(), 'dryhold-whole-fleet-'));
  try {
    const bundle = join(folder, 'bundle');
    await writeBundle(simulateFleet(options), bundle, (jobs) => onProgress(`${jobs} jobs simulated`));
    const store = await Store.open(join(folder, 'store'), 'write');
    try {
      await ingest(store, [bundle], { onProgress: ({ file }) => onProgress(`taking in ${file}`) });
      await judge(store, { onProgress: (what, done, of) => onProgress(`${done} of ${of} ${what} judged`) });
      for (const table of truthTables)
        await store.run(
          `CREATE TEMP TABLE ${table} AS SELECT * FROM read_csv('${join(bundle, `${table}.csv`)}', header = true, sample_size = -1,
            auto_type_candidates = ['BOOLEAN', 'BIGINT', 'DOUBLE', 'VARCHAR'])`,
        );
      onProgress('held against the truth');
      const jobs = await fleetJobs(store, options.seed);
      const ownJobs = jobs.filter(
        ({ truth }) => truth.copied_from_job_id === undefined && truth.recording_fault === undefined,
      );
      return await work({ seed: options.seed, store, jobs, ownJobs });
    } finally {
      await store.close();
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function fleetJobs(store: Store, seed: number): Promise<FleetJob[]> {
  const side = (columns: string) =>
    store.rows(
      `SELECT ${columns} FROM truth t JOIN jobs j USING (job_id) LEFT JOIN facts f USING (job_id) ORDER BY t.job_id`,
    );
  const [truths, jobs, facts] = [await side('t.*'), await side('j.*'), await side('f.*')];
  const lines = await byJob(store, 'SELECT l.* FROM line_sets l JOIN truth USING (job_id)');
  const findings = await byJob(
    store,
    'SELECT job_id, check_id, outcome, message_id FROM findings JOIN truth USING (job_id)',
  );
  return truths.map((row, at) => {
    const truth = known<Truth>(row);
    return {
      plan: { seed, number: Number(truth.job_id.replaceAll(/\D/g, '')), kind: '' },
      job: known<Job>(jobs[at]),
      lineSets: (lines.get(truth.job_id) ?? []).map((line) => known<LineSet>(line)),
      truth,
      facts: known<Partial<Facts>>(facts[at]),
      findings: new Map(
        (findings.get(truth.job_id) ?? []).map(({ check_id, outcome, message_id }) => [
          String(check_id),
          { outcome: outcome as Outcome, message: String(message_id) },
        ]),
      ),
    };
  });
}

async function byJob(store: Store, select: string): Promise<Map<string, PlainRow[]>> {
  return Map.groupBy(await store.rows(select), ({ job_id }) => String(job_id));
}

/** A row as the records have it: what is not known is absent. */
function known<Row>(row: PlainRow): Row {
  return Object.fromEntries(Object.entries(row).filter(([, value]) => value !== null)) as Row;
}
