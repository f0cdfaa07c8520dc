import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { textTable } from '../../src/cli/text-table.ts';
import { drawnFleet } from './fleet-folder.ts';
import { intervalFor } from './fleets/vacuum-job.ts';
import { dryhold, type Ran, type RunScript } from './measured-process.ts';
import { type CpuProfile, timeByGroup } from './profile-groups.ts';
import { copyStore } from './store-copy.ts';

export interface ProfileOptions {
  /** Readings. */
  readonly size: number;
  readonly readingsPerJob: number;
  readonly seed: number;
  readonly folder: string;
  readonly run: RunScript;
  readonly say: (what: string) => void;
}

/**
 * Where the time of judging goes: self time of all threads, by what the files are about. The
 * profiler slows it somewhat, and takes a thread that waits for a core for one that works: a busy machine shows in all of it.
 */
export async function profileOfJudging(options: ProfileOptions): Promise<string> {
  const { run, size, readingsPerJob, seed, folder, say } = options;
  const jobs = Math.max(1, Math.round(size / readingsPerJob));
  const plan = { seed, jobs, intervalS: intervalFor(readingsPerJob), csv: false };
  const fleet = await drawnFleet(run, folder, 'vacuum-logs', plan, say);
  const store = join(fleet.folder, 'store');
  if (!existsSync(store)) await run(dryhold, ['ingest', fleet.parquet ?? '', '--store', store, '--quiet']);
  const work = mkdtempSync(join(folder, 'profile-'));
  try {
    say('judged under the profiler');
    const judge = ['judge', '--store', copyStore(store, join(work, 'judged')), '--quiet'];
    const ran = await run(dryhold, judge, ['--cpu-prof', `--cpu-prof-dir=${work}`]);
    const profiles = readdirSync(work)
      .filter((name) => name.endsWith('.cpuprofile'))
      .map((name) => timeByGroup(JSON.parse(readFileSync(join(work, name), 'utf8')) as CpuProfile));
    return profileTable(profiles, ran, fleet.readings);
  } finally {
    rmSync(work, { recursive: true, force: true });
  }
}

function profileTable(threads: readonly ReadonlyMap<string, number>[], ran: Ran, readings: number): string {
  const seconds = new Map<string, number>();
  for (const thread of threads)
    for (const [group, time] of thread) if (group !== 'idle') seconds.set(group, (seconds.get(group) ?? 0) + time);
  const scripted = [...seconds.values()].reduce((sum, time) => sum + time, 0);
  seconds.set("the engine's own threads, and whatever else runs beside", Math.max(0, ran.cpuSeconds - scripted));
  const all = Math.max(scripted, ran.cpuSeconds);
  const rows = [...seconds]
    .sort(([, a], [, b]) => b - a)
    .map(([group, time]) => [
      group,
      time.toFixed(2),
      `${((100 * time) / all).toFixed(1)} %`,
      ((time / readings) * 1e9).toFixed(1),
    ]);
  const idle = threads.map((thread) => (thread.get('idle') ?? 0).toFixed(1)).join(', ');
  return [
    `judging ${readings} readings: ${ran.seconds.toFixed(2)} s, ${ran.cpuSeconds.toFixed(2)} s CPU, under the profiler; ${threads.length} threads, idle for ${idle} s`,
    '',
    textTable(['what', 'seconds', 'share', 'ns a reading'], rows, { right: [1, 2, 3] }),
  ].join('\n');
}
