import { spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { expect, onTestFinished, test } from 'vitest';
import { ingest } from '../../src/steps/ingest.ts';
import { Store } from '../../src/store/store.ts';
import { runDryhold, startDryhold } from './run-dryhold.ts';
import { inStore, tempFolder } from './temp-store.ts';

/** A bundle of 60 jobs; what it says differs by revision, so that every job is replaced. */
async function bundle(folder: string, revision: number, rows: number): Promise<string> {
  mkdirSync(folder, { recursive: true });
  await inStore(join(tempFolder(), 'maker'), async (store) => {
    await store.run(`COPY (SELECT 'J' || (i // ${rows / 60})::INTEGER AS job_id, i % ${rows / 60} AS elapsed_s,
      ${revision} AS line_c, hash(i, ${revision}) % 100000000 / 1000.0 AS vacuum_pa FROM range(${rows}) t(i)) TO '${folder}/readings.csv' (HEADER)`);
    await store.run(`COPY (SELECT 'J' || i AS job_id, '2026-03-05T14:30:00Z' AS started_at, ${revision} AS altitude_m
      FROM range(60) t(i)) TO '${folder}/jobs.csv' (HEADER)`);
  });
  return folder;
}

/** All that the store says of which revision it holds: one value each, or it holds half of something. */
async function contents(store: Store) {
  const [row] = await store.rows(`SELECT (SELECT list(DISTINCT line_c) FROM readings) AS of_readings,
    (SELECT list(DISTINCT altitude_m) FROM jobs) AS of_jobs, (SELECT count(*) FROM readings) AS readings,
    (SELECT count(*) FROM jobs) AS jobs, (SELECT list(DISTINCT revision) FROM job_revisions) AS revisions`);
  const known = (await store.rows<{ file: string }>('SELECT file FROM segments ORDER BY file')).map(({ file }) => file);
  return {
    ...JSON.parse(JSON.stringify(row)),
    leftOver: readdirSync(store.segmentsFolder).filter((file) => !known.includes(file)),
  };
}

test('killed at any moment of an ingest, the store holds what it held before or all of it', async () => {
  const folder = tempFolder();
  const store = join(folder, 'store');
  const rows = 120_000;
  let held = 1;
  await bundle(join(folder, '1'), 1, rows);
  await inStore(store, (opened) => ingest(opened, [join(folder, '1')]));
  const seen: string[] = [];
  for (const [index, waitMs] of [0, 20, 60, 120, 200, 350].entries()) {
    const next = index + 2;
    await bundle(join(folder, 'next'), next, rows);
    const before = readdirSync(join(store, 'readings')).length;
    const child = startDryhold(['ingest', join(folder, 'next'), '--store', store]);
    const ended = once(child, 'exit');
    while (child.exitCode === null && readdirSync(join(store, 'readings')).length === before) await delay(2);
    await delay(waitMs);
    child.kill('SIGKILL');
    await ended;
    seen.push(child.signalCode ?? 'ended');
    // To look at it must do, too, before anybody opens it to write.
    const looked = await Store.open(store, 'read');
    const { leftOver: _, ...seenFirst } = await contents(looked);
    await looked.close();
    const opened = await Store.open(store, 'write');
    const now = await contents(opened);
    await opened.close();
    expect(now).toMatchObject(seenFirst);
    const [is] = now.of_readings as number[];
    expect([held, next]).toContain(is);
    expect(now).toMatchObject({ of_readings: [is], of_jobs: [is], readings: rows, jobs: 60, leftOver: [] });
    expect(now.revisions).toHaveLength(1);
    held = is;
  }
  expect(seen).toContain('SIGKILL');
}, 60_000);

/** Mounts a small file system, or gives why it cannot. */
function smallDisk(folder: string, megabytes: number): string | undefined {
  mkdirSync(folder, { recursive: true });
  const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', `size=${megabytes}m`, 'tmpfs', folder], {
    encoding: 'utf8',
  });
  if (mounted.status !== 0) return mounted.stderr ?? 'no mount command';
  onTestFinished(() => {
    spawnSync('umount', [folder]);
  });
  return undefined;
}

test('on a full disk nothing is half written, the error is one line with exit status 3, and the store opens again', async (context) => {
  const folder = tempFolder();
  const disk = join(folder, 'disk');
  const problem = smallDisk(disk, 12);
  if (problem !== undefined) return context.skip(`cannot mount a small disk: ${problem}`);
  const store = join(disk, 'store');
  const first = await bundle(join(folder, '1'), 1, 6000);
  await inStore(store, (opened) => ingest(opened, [first]));
  const before = { of_readings: [1], of_jobs: [1], readings: 6000, jobs: 60, revisions: [1], leftOver: [] };
  const big = await bundle(join(folder, '2'), 2, 3_000_000);
  const small = await bundle(join(folder, '3'), 3, 6000);
  const filler = join(disk, 'filler');
  for (const [bundleFolder, fill] of [
    [big, false],
    [small, true],
  ] as const) {
    if (fill) {
      const file = spawnSync('dd', ['if=/dev/zero', `of=${filler}`, 'bs=4k']);
      expect(file.status).not.toBe(0);
    }
    const { status, stderr } = runDryhold(['ingest', bundleFolder, '--store', store, '--quiet']);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    expect(stderr).toMatch(/^dryhold: .*: (store cannot be written|not a readable store)/);
    expect(status).toBe(3);
    rmSync(filler, { force: true });
    await inStore(store, async (opened) => expect(await contents(opened)).toEqual(before));
  }
  const again = runDryhold(['ingest', small, '--store', store, '--quiet']);
  expect(again.status).toBe(0);
  writeFileSync(filler, '');
  await inStore(store, async (opened) =>
    expect(await contents(opened)).toMatchObject({ of_readings: [3], of_jobs: [3] }),
  );
}, 60_000);
