import { copyFileSync, existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { asRecorded, type Policy } from '../../checks/policy.ts';
import { DryholdError } from '../../errors.ts';
import { methodVersion } from '../../facts/method-version.ts';
import { inAsideFolder, isAside } from '../../store/aside-folder.ts';
import { writeResults } from '../../store/judged-results.ts';
import { shardFile, shardFiles, statesName } from '../../store/shard-tables.ts';
import { query } from '../../store/sql.ts';
import type { Store } from '../../store/store.ts';
import { keepOnDisk } from '../../store/whole-file.ts';
import { tasksToMeasure } from '../judge/part-tasks.ts';
import { policyContent } from '../judge/policy-content.ts';
import { takeParts } from '../judge/take-parts.ts';
import { openShard } from './open-shard.ts';
import { type ResultsDescription, resultFiles, resultsName } from './results-description.ts';
import { readShardDescription, type ShardDescription, shardFormat, shardName } from './shard-description.ts';
import { assertWhole, sumsOf } from './whole-files.ts';

export interface JudgeShardOptions {
  readonly policy?: Policy;
  /** Told how many jobs are judged of how many. */
  readonly onProgress?: (done: number, of: number) => void;
}

/** What a judging of a shard did. */
export interface JudgeShardResult {
  readonly judged: number;
  readonly policyId: string;
}

const again = 'write the shard anew with "dryhold shard"';

/**
 * Measures and judges the jobs of a shard by what the shard alone holds, and writes what is found: facts, findings, and by what curves are found
 * again in other jobs, which only a store with all of them can look for. What is not whole is not taken for results; equal shards give equal bytes.
 *
 * @param outDir made where it is missing; the results that lie there are replaced
 * @throws DryholdError `file-not-found`, `file-unreadable` where the shard is not whole; `bad-usage` where it is a file, or the other folder holds anything else
 */
export async function judgeShard(
  folder: string,
  outDir: string,
  { policy = asRecorded, onProgress }: JudgeShardOptions = {},
): Promise<JudgeShardResult> {
  const shard = await wholeShard(folder);
  assertOwn(outDir);
  await inAsideFolder(outDir, async (aside) => {
    const store = await openShard(resolve(folder), join(aside, 'store'));
    const results = join(aside, 'results');
    mkdirSync(results);
    try {
      await measured(store, policy, (done) => onProgress?.(done, shard.jobs));
      await writeResults(store, results);
    } finally {
      await store.close();
    }
    copyFileSync(shardFile(folder, statesName), shardFile(results, statesName));
    const { digest } = policyContent(policy);
    const description: ResultsDescription = {
      format: shardFormat,
      method: methodVersion,
      policy: { id: policy.id, digest },
      month: shard.month,
      jobs: shard.jobs,
      files: await sumsOf(results, resultFiles),
    };
    writeFileSync(join(results, resultsName), `${JSON.stringify(description, null, 2)}\n`);
    keepOnDisk(join(results, resultsName));
    // Without it nothing is taken for results: it goes first and comes last.
    rmSync(join(outDir, resultsName), { force: true });
    for (const name of [...resultFiles, resultsName]) renameSync(join(results, name), join(outDir, name));
    keepOnDisk(outDir);
  });
  return { judged: shard.jobs, policyId: policy.id };
}

async function measured(store: Store, policy: Policy, onDone: (done: number) => void): Promise<void> {
  await store.run(query('jobs-to-measure'), [methodVersion]);
  const [{ jobs }] = await store.rows<{ jobs: number }>('SELECT count(*) AS jobs FROM temp.jobs_to_measure');
  let done = 0;
  const onJobs = (more: number) => {
    done += more;
    onDone(done);
  };
  await store.transaction(() => takeParts(store, tasksToMeasure(store), { policy, jobs, onJobs }));
}

async function wholeShard(folder: string): Promise<ShardDescription> {
  if (!existsSync(folder)) throw new DryholdError('file-not-found', { path: folder });
  if (!statSync(folder).isDirectory())
    throw new DryholdError('bad-usage', { problem: `${folder} is a file; give --shard the folder of a shard` });
  const shard = readShardDescription(folder);
  if (shard.method !== methodVersion) {
    const problem = `a dryhold of method ${shard.method} wrote it, this one makes facts by method ${methodVersion}; use the same dryhold on every machine`;
    throw new DryholdError('file-unreadable', { path: join(folder, shardName), problem });
  }
  await assertWhole(folder, shardFiles, shard.files, again);
  return shard;
}

function assertOwn(folder: string): void {
  const own = new Set([...resultFiles, resultsName]);
  const strange = existsSync(folder) ? readdirSync(folder).find((name) => !own.has(name) && !isAside(name)) : undefined;
  if (strange !== undefined)
    throw new DryholdError('bad-usage', {
      problem: `${folder} holds ${strange}, which is no result of a shard; give --results a folder of its own for each shard`,
    });
}
