import { cpSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { JobCurve } from '../../../src/facts/recording/job-curves.ts';
import { Random } from '../../../src/numerics/random.ts';
import { judgeShard } from '../../../src/steps/shard/judge-shard.ts';
import { shard } from '../../../src/steps/shard/shard.ts';
import type { Store } from '../../../src/store/store.ts';
import type { HonestCurve } from '../../copies/honest-log.ts';
import { copyOf } from '../../../src/simulate/mishaps/copy-kinds.ts';
import { vacuumCsv, vacuumJobs } from '../../copies/vacuum-jobs.ts';
import { ingestFiles, inStore } from '../../store/temp-store.ts';

const seed = 12;

/** Six jobs in March and two copies of their curves, one in March and one in May; a job of no day, and one without readings. */
export function copiedFiles(): Record<string, string> {
  const honest = vacuumJobs(seed, 6);
  const curveOf = (id: string) => honest.get(id) as HonestCurve;
  const curves = new Map<string, JobCurve>([
    ...honest,
    ['copy-1', copyOf(curveOf('honest-1'), 're-noised', new Random(seed, 1))],
    ['copy-2', copyOf(curveOf('honest-2'), 'shifted in time', new Random(seed, 2))],
  ]);
  const startOf = (id: string) => (id === 'copy-2' ? '2026-05-02T08:00:00Z' : '2026-03-02T08:00:00Z');
  const dated = [...curves.keys(), 'unread'].filter((id) => id !== 'honest-6');
  return {
    'readings.csv': vacuumCsv(curves),
    'jobs.csv': `job_id,started_at,gauge_id\n${dated.map((id) => `${id},${startOf(id)},G\n`).join('')}`,
    'gauges.csv': 'gauge_id,accuracy_ratio\nG,0.05\n',
  };
}

/** A store that is not judged and the shards of it, in folders `store` and `shards`. */
export async function shardedStore(folder: string, files: Record<string, string>, jobsPerShard = 4): Promise<void> {
  await inStore(join(folder, 'store'), async (store) => {
    await ingestFiles(store, files);
    await shard(store, join(folder, 'shards'), { jobsPerShard });
  });
}

/** Another store with the same content. */
export function storeCopy(folder: string, name: string): string {
  cpSync(join(folder, 'store'), join(folder, name), { recursive: true });
  return join(folder, name);
}

/** The folders of shards, sorted. */
export function shardFolders(folder: string): string[] {
  return readdirSync(join(folder, 'shards'), { recursive: true })
    .map(String)
    .filter((name) => name.endsWith('shard.json'))
    .map((name) => join(folder, 'shards', dirname(name)))
    .sort();
}

/** Judges all shards into folders `judged/1`, `judged/2`, …; gives these. */
export async function judgedShards(folder: string): Promise<string[]> {
  const results: string[] = [];
  for (const [index, path] of shardFolders(folder).entries()) {
    const out = join(folder, 'judged', String(index + 1));
    await judgeShard(path, out);
    results.push(out);
  }
  return results;
}

/** By what curves are found again, as the store keeps it. */
export async function printsOf(store: Store): Promise<string[]> {
  const tables = ['curves', 'curve_words', 'curve_landmarks'];
  const rows = await Promise.all(
    tables.map((table) => store.rows(`SELECT t::VARCHAR AS row FROM ${table} t ORDER BY ALL`)),
  );
  return rows.flat().map(({ row }) => String(row));
}
