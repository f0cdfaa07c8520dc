import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { DryholdError } from '../../errors.ts';
import { methodVersion } from '../../facts/method-version.ts';
import { inAsideFolder } from '../../store/aside-folder.ts';
import { noteJobStates } from '../../store/job-states.ts';
import { shardFiles, writeShardTables } from '../../store/shard-tables.ts';
import { literal, query } from '../../store/sql.ts';
import type { Store } from '../../store/store.ts';
import { keepOnDisk } from '../../store/whole-file.ts';
import { makePersonCodes } from '../people-names.ts';
import { type ListedShard, shardFormat, shardName, type ShardDescription, undated } from './shard-description.ts';
import { ShardFolder } from './shard-folder.ts';
import { sumsOf } from './whole-files.ts';

export interface ShardOptions {
  /** Jobs of a month that lie in a folder together. */
  readonly jobsPerShard: number;
  /** Only the shards of this month: `2026-03`, or `undated`. */
  readonly month?: string;
  /** Technicians by code, free text left out. */
  readonly codes?: boolean;
  /** Told how many jobs are written of how many. */
  readonly onProgress?: (done: number, of: number) => void;
}

/** What was written. */
export interface ShardResult {
  /** Those written now, by month and range. */
  readonly shards: readonly ListedShard[];
  readonly jobs: number;
  readonly readings: number;
}

/** How often it is told how far the engine has come with a shard [ms]. */
const progressMs = 250;

type PlannedShard = { month: string; number: number; first: number; last: number; jobs: number };

/**
 * Lays the jobs of a store out as shards: a folder each, by month and range of jobs, with all that judging them takes, as Parquet. Equal content
 * gives equal bytes. All are whole before the first comes into its place, one after the other: of a run that is killed just then some may be missing.
 * Shards that a folder has no more go.
 *
 * @param outDir made where it is missing
 * @throws DryholdError `bad-usage` where the folder holds anything else, or no job began in the month
 */
export async function shard(store: Store, outDir: string, options: ShardOptions): Promise<ShardResult> {
  const { month, jobsPerShard, codes = false, onProgress } = options;
  const folder = ShardFolder.open(outDir);
  await store.run(query('sharded-jobs'), [jobsPerShard]);
  const planned = await plannedShards(store, month);
  folder.assertFree(planned.map(folderOf));
  await store.run(
    `CREATE OR REPLACE TEMP TABLE wanted_jobs AS SELECT job_id FROM temp.sharded_jobs ${month === undefined ? '' : `WHERE month = ${literal(month)}`}`,
  );
  await noteJobStates(store);
  if (codes) await makePersonCodes(store);
  const of = planned.reduce((sum, { jobs }) => sum + jobs, 0);
  const write = async (aside: string): Promise<ShardResult> => {
    const shards: ListedShard[] = [];
    let done = 0;
    for (const plan of planned) {
      const timer = setInterval(() => onProgress?.(done + Math.floor(store.statementDone * plan.jobs), of), progressMs);
      shards.push(await writeShard(store, plan, { aside, codes }).finally(() => clearInterval(timer)));
      done += plan.jobs;
      onProgress?.(done, of);
    }
    await folder.take(aside, shards, month);
    return { shards, jobs: done, readings: shards.reduce((sum, { readings }) => sum + readings, 0) };
  };
  try {
    // All of it is sorted: what is written to disk sooner leaves room.
    await store.holdInMemory('spare');
    return await inAsideFolder(outDir, write);
  } finally {
    await store.holdInMemory('usual');
  }
}

async function plannedShards(store: Store, month: string | undefined): Promise<PlannedShard[]> {
  const planned = await store.rows<PlannedShard>(
    `SELECT month, number, min(place) AS first, max(place) AS last, count(*) AS jobs FROM temp.sharded_jobs
     GROUP BY month, number ORDER BY month, number`,
  );
  if (month === undefined) return planned;
  const wanted = planned.filter((plan) => plan.month === month);
  if (wanted.length > 0) return wanted;
  const months = [...new Set(planned.map((plan) => plan.month))];
  const there = months.length === 0 ? 'the store holds none at all' : `there are ${months[0]} to ${months.at(-1)}`;
  const problem = `no job ${month === undated ? 'is without a day' : `began in ${month}`}; ${there}`;
  throw new DryholdError('bad-usage', { problem });
}

/** Numbers of one length sort as they count. */
function folderOf({ month, first, last }: PlannedShard): string {
  const [from, to] = [first, last].map((place) => String(place).padStart(7, '0'));
  return `${month}/${from}-${to}`;
}

async function writeShard(
  store: Store,
  plan: PlannedShard,
  { aside, codes }: { aside: string; codes: boolean },
): Promise<ListedShard> {
  const { month, number, jobs } = plan;
  const folder = join(aside, folderOf(plan));
  mkdirSync(folder, { recursive: true });
  await store.run(
    `CREATE OR REPLACE TEMP TABLE shard_jobs AS SELECT job_id FROM temp.sharded_jobs WHERE month = ${literal(month)} AND number = ${number}`,
  );
  const count = await writeShardTables(store, folder, codes);
  const files = await sumsOf(folder, shardFiles);
  const description: ShardDescription = {
    format: shardFormat,
    method: methodVersion,
    month,
    jobs,
    readings: count,
    files,
  };
  writeFileSync(join(folder, shardName), `${JSON.stringify(description, null, 2)}\n`);
  keepOnDisk(join(folder, shardName));
  keepOnDisk(folder);
  return { folder: folderOf(plan), jobs, readings: count };
}
