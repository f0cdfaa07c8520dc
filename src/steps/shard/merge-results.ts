import { join } from 'node:path';
import { asRecorded } from '../../checks/policy.ts';
import { DryholdError } from '../../errors.ts';
import { methodVersion } from '../../facts/method-version.ts';
import { noteJobStates } from '../../store/job-states.ts';
import { takeResults } from '../../store/judged-results.ts';
import { shardFile, statesName } from '../../store/shard-tables.ts';
import { parquetFiles, query } from '../../store/sql.ts';
import type { Store } from '../../store/store.ts';
import { judgeBy, type JudgeOptions, type JudgeResult } from '../judge.ts';
import { policyContent } from '../judge/policy-content.ts';
import { readResultsDescription, resultFiles, resultFolders, resultsName } from './results-description.ts';
import { assertWhole } from './whole-files.ts';

/** What a merging did. */
export interface MergeResult extends JudgeResult {
  /** Folders of results that were there. */
  readonly results: number;
  /** Jobs that are as they were when their shard was written: what was found of them is taken, or the store has it already. */
  readonly upToDate: number;
  /** Jobs that the store has otherwise; what was found of them is left. */
  readonly changed: number;
  /** Jobs that the store does not have. */
  readonly unknown: number;
  /** Folders of results none of whose jobs is as the store has it: either all of them changed, or they are of another store. */
  readonly apart: readonly string[];
  /** Jobs of the whole store that are not judged by the policy as they are now, whether any results tell of them or not. */
  readonly unjudged: number;
}

/**
 * Takes what was found of shards on any machines into the store, in one transaction, looks for their curves among all others, and judges what that
 * changes: the store is as if it had judged these jobs itself.
 *
 * @param given folders of results, or folders that hold some at any depth
 * @throws DryholdError `results-refused` where some are by another policy or method, or of another store; `file-unreadable` where some are not whole
 */
export async function mergeResults(
  store: Store,
  given: readonly string[],
  options: JudgeOptions = {},
): Promise<MergeResult> {
  const folders = resultFolders(given);
  const { id } = options.policy ?? asRecorded;
  const { digest } = policyContent(options.policy ?? asRecorded);
  for (const folder of folders) await assertMergeable(folder, id, digest);
  const counts = await offered(store, folders);
  const narrow = async () => {
    for (const table of ['jobs_to_measure', 'jobs_to_judge'])
      await store.run(`DELETE FROM temp.${table} WHERE job_id NOT IN (SELECT job_id FROM temp.fresh_jobs)`);
    await store.run(`CREATE OR REPLACE TEMP TABLE taken_jobs AS
      SELECT job_id, result, segment_id, first_row FROM temp.jobs_to_measure JOIN temp.fresh_jobs USING (job_id)`);
  };
  const result = await judgeBy(store, { narrow, take: ({ onJobs }) => takeResults(store, folders, onJobs) }, options);
  return { ...result, results: folders.length, ...counts, unjudged: await countUnjudged(store, id, digest) };
}

async function countUnjudged(store: Store, policyId: string, digest: string): Promise<number> {
  await store.run(query('jobs-to-measure'), [methodVersion]);
  await store.run(query('jobs-to-judge'), [policyId, digest]);
  const [{ jobs }] = await store.rows<{ jobs: number }>(
    'SELECT (SELECT count(*) FROM temp.jobs_to_measure) + (SELECT count(*) FROM temp.jobs_to_judge) AS jobs',
  );
  return jobs;
}

async function assertMergeable(folder: string, policyId: string, digest: string): Promise<void> {
  const { method, policy, files } = readResultsDescription(folder);
  const refused = (problem: string) =>
    new DryholdError('results-refused', { path: join(folder, resultsName), problem });
  if (method !== methodVersion)
    throw refused(
      `its facts are by method ${method}, this dryhold makes them by method ${methodVersion}; use the same dryhold on every machine, and judge the shard again`,
    );
  if (policy.id !== policyId)
    throw refused(`it was judged by policy ${policy.id}, not ${policyId}; name the file of that policy with --policy`);
  if (policy.digest !== digest)
    throw refused(`policy ${policyId} or the checks had other limits when it was judged; judge the shard again`);
  await assertWhole(folder, resultFiles, files, 'judge the shard again');
}

/** Finds in `temp.fresh_jobs` the jobs that are as their shard had them, and which folder tells of each. */
async function offered(
  store: Store,
  folders: readonly string[],
): Promise<Pick<MergeResult, 'upToDate' | 'changed' | 'unknown' | 'apart'>> {
  await store.run('CREATE OR REPLACE TEMP TABLE offered_jobs (result INTEGER, job_id VARCHAR, state VARCHAR)');
  for (const [result, folder] of folders.entries())
    await store.run(
      `INSERT INTO temp.offered_jobs SELECT ${result}, job_id, state FROM ${parquetFiles(shardFile(folder, statesName))}`,
    );
  await store.run('CREATE OR REPLACE TEMP TABLE wanted_jobs AS SELECT DISTINCT job_id FROM temp.offered_jobs');
  await noteJobStates(store);
  const folderCounts = await store.rows<{ result: number; jobs: number; known: number; same: number }>(
    `SELECT result, count(*) AS jobs, count(s.job_id) AS known, count(*) FILTER (s.state = o.state) AS same
     FROM temp.offered_jobs o LEFT JOIN temp.job_states s USING (job_id) GROUP BY result ORDER BY result`,
  );
  const refused = (result: number, problem: string) =>
    new DryholdError('results-refused', { path: join(folders[result], resultsName), problem });
  for (const { result, jobs, known } of folderCounts)
    if (known === 0)
      throw refused(
        result,
        `${store.folder} has none of its jobs (${jobs}), so it is of another store; name that with --store`,
      );
  const apart = folderCounts.filter(({ same }) => same === 0);
  if (apart.length === folderCounts.length)
    for (const { result, jobs } of apart)
      throw refused(
        result,
        `none of its jobs (${jobs}) is in ${store.folder} as its shard had it: either they are another store's (name that with --store), or all of them changed since (then judge them in this one, or write the shards anew)`,
      );
  // Of several that tell of a job as it is, all tell the same.
  await store.run(`CREATE OR REPLACE TEMP TABLE fresh_jobs AS
    SELECT job_id, min(result) AS result FROM temp.offered_jobs JOIN temp.job_states USING (job_id, state) GROUP BY job_id`);
  const [counts] = await store.rows<{ upToDate: number; changed: number; unknown: number }>(
    `SELECT count(f.job_id) AS "upToDate", count(s.job_id) - count(f.job_id) AS "changed", count(*) - count(s.job_id) AS "unknown"
     FROM temp.wanted_jobs w LEFT JOIN temp.job_states s USING (job_id) LEFT JOIN temp.fresh_jobs f USING (job_id)`,
  );
  return {
    upToDate: counts.upToDate,
    changed: counts.changed,
    unknown: counts.unknown,
    apart: apart.map(({ result }) => folders[result]),
  };
}
