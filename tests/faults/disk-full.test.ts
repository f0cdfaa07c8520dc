import { cpSync, existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { expect, type TestContext, test, vi } from 'vitest';
import { DryholdError } from '../../src/errors.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { writeBundle } from '../../src/simulate/write-bundle.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { judge } from '../../src/steps/judge.ts';
import { shard as writeShards } from '../../src/steps/shard/shard.ts';
import type { Store } from '../../src/store/store.ts';
import { runDryhold } from '../store/run-dryhold.ts';
import { inStore, tempFolder } from '../store/temp-store.ts';
import { samples } from '../cli/dryhold-process.ts';
import { writeFiles } from '../write-files.ts';
import { SmallDisk } from './small-disk.ts';
import { contentsOf, differencesOf, leftoversOf } from './store-contents.ts';

vi.setConfig({ testTimeout: 240_000 });

const kib = 1024;

/** A small disk, or the end of the test where none can be mounted. */
function diskOf(context: TestContext, folder: string, megabytes: number): SmallDisk {
  const disk = SmallDisk.mount(join(folder, 'disk'), megabytes);
  if (typeof disk === 'string') return context.skip(disk);
  return disk;
}

/** Runs a work on a store, with less and less of the disk taken, until there is room; gives how often there was none. */
async function untilItFits(
  disk: SmallDisk,
  folder: string,
  levels: readonly number[],
  work: (store: Store) => Promise<unknown>,
): Promise<number> {
  const before = await contentsOf(folder);
  let failed = 0;
  for (const left of levels) {
    disk.fill(left);
    const error = await inStore(folder, work).then(
      () => undefined,
      (thrown: unknown) => thrown,
    );
    disk.empty();
    if (error === undefined) return failed;
    failed += 1;
    expect(error).toBeInstanceOf(DryholdError);
    expect(error).toMatchObject({ code: 'store-unwritable', exitStatus: 3 });
    expect((error as Error).message).toMatch(
      /^[^\n]*: store cannot be written, and what was under way is undone: [^\n]*$/,
    );
    expect(differencesOf(await contentsOf(folder), before)).toEqual([]);
  }
  throw new Error('it never fitted');
}

test('a disk that fills at any level of an ingest or a judging leaves the store as it was, and with room all goes well', async (context) => {
  const folder = tempFolder();
  const disk = diskOf(context, folder, 64);
  const store = join(disk.folder, 'store');
  await writeBundle(simulateFleet({ jobs: 40, seed: 1 }), join(folder, 'bundle'));
  await writeBundle(simulateFleet({ jobs: 40, seed: 1 }), join(folder, 'again'));
  const small = writeFiles(join(folder, 'small'), {
    'readings.csv': 'job_id,elapsed_s,vacuum_pa\nA,0,500\nA,10,400\n',
  });
  await inStore(store, (opened) => ingest(opened, [small]));
  const levels = [0, 16, 64, 256, 512, 1024, 1536, 2048, 3072, 4096, 8192, 16_384].map((left) => left * kib);
  expect(await untilItFits(disk, store, levels, (opened) => ingest(opened, [join(folder, 'bundle')]))).toBeGreaterThan(
    3,
  );
  expect(await untilItFits(disk, store, levels, (opened) => judge(opened))).toBeGreaterThan(3);
  // Where there is just room for what becomes known, the engine's own log is taken into the catalogue at the next opening.
  await inStore(store, () => Promise.resolve());
  expect(await leftoversOf(store)).toEqual([]);
  const undisturbed = join(folder, 'undisturbed');
  await inStore(undisturbed, async (opened) => {
    for (const path of [small, join(folder, 'bundle')]) await ingest(opened, [path]);
    await judge(opened);
  });
  expect(differencesOf(await contentsOf(store), await contentsOf(undisturbed))).toEqual([]);
});

test('a disk that fills while something packed is unpacked is no fault of what is packed', async (context) => {
  const folder = tempFolder();
  const disk = diskOf(context, folder, 24);
  const store = join(disk.folder, 'store');
  const log = readFileSync(join(samples, 'mapped-logs', 'logs', 'W-101.csv'), 'utf8');
  const drop = writeFiles(join(folder, 'drop'), { 'W-101.csv.gz': gzipSync(log + '\n'.repeat(2_000_000)) });
  const map = join(samples, 'mapped-logs', 'map.json');
  await inStore(store, () => Promise.resolve());
  await untilItFits(disk, store, [1024 * kib, 20 * 1024 * kib], (opened) => ingest(opened, [drop], { map }));
  expect([...(await contentsOf(store))].find(([name]) => name === 'rejects')?.[1].split('\n')).toHaveLength(2);
});

/** Files of a folder and of those in it; empty folders are nothing half written. */
function filesBelow(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => !entry.isDirectory())
    .map(({ name }) => name);
}

test('the command says it in one line with status 3, whatever it was writing, and leaves nothing half written', async (context) => {
  const folder = tempFolder();
  const disk = diskOf(context, folder, 48);
  const kept = join(folder, 'store');
  await writeBundle(simulateFleet({ jobs: 20, seed: 1 }), join(folder, 'bundle'));
  const job = await inStore(kept, async (opened) => {
    await ingest(opened, [join(folder, 'bundle')]);
    await judge(opened);
    return String((await opened.rows('SELECT min(job_id) AS job FROM jobs'))[0].job);
  });
  const out = join(disk.folder, 'out');
  const shards = join(folder, 'shards');
  const shard = join(
    shards,
    await inStore(kept, async (opened) => (await writeShards(opened, shards, { jobsPerShard: 20 })).shards[0].folder),
  );
  const log = join(samples, 'mapped-logs', 'logs', 'W-101.csv');
  for (const [args, makesFolder] of [
    [['export', 'readings', '--out', out]],
    [['export', 'readings', '--format', 'arrow', '--out', out]],
    [['export', 'findings', '--format', 'parquet', '--out', out]],
    [['report', '--out', out], true],
    [['show', job, '--html', out]],
    [['map', log, '--out', out]],
    [['simulate', '--jobs', '40', '--out', out], true],
    [['shard', '--out', out], true],
    [['judge', '--shard', shard, '--results', out], true],
  ] as const) {
    disk.fill(0);
    const { status, stderr } = runDryhold([...args, '--store', kept, '--quiet']);
    expect([args[0], status, stderr.trimEnd().split('\n')]).toEqual([
      args[0],
      3,
      [expect.stringContaining(': cannot be used: the disk is full')],
    ]);
    disk.empty();
    expect(readdirSync(disk.folder)).toEqual(makesFolder && existsSync(out) ? ['out'] : []);
    if (existsSync(out)) expect(filesBelow(out)).toEqual([]);
    rmSync(out, { recursive: true, force: true });
    expect(runDryhold([...args, '--store', kept, '--quiet']).status).toBe(0);
    expect(existsSync(out)).toBe(true);
    rmSync(out, { recursive: true, force: true });
  }
  const store = join(disk.folder, 'store');
  cpSync(kept, store, { recursive: true });
  disk.fill(0);
  const small = writeFiles(join(folder, 'small'), { 'readings.csv': 'job_id,elapsed_s\nA,0\n' });
  const stores = [store, join(disk.folder, 'new')];
  for (const of of stores) {
    const { status, stderr } = runDryhold(['ingest', small, '--store', of, '--quiet']);
    const line = expect.stringMatching(/store cannot be written.*the disk is full/) as string;
    expect([status, stderr.trimEnd().split('\n')]).toEqual([3, [line]]);
  }
  disk.empty();
  for (const of of stores) expect(runDryhold(['ingest', small, '--store', of]).status).toBe(0);
});
