import { chmodSync, existsSync, mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test, vi } from 'vitest';
import { newestVersion } from '../../src/store/migrations.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { runDryhold } from '../store/run-dryhold.ts';
import { inStore, tempFolder } from '../store/temp-store.ts';
import { writeFiles } from '../write-files.ts';
import { killAt } from './killed-command.ts';
import { contentsOf, differencesOf } from './store-contents.ts';

vi.setConfig({ testTimeout: 120_000 });

const isRoot = process.getuid?.() === 0;
/** Somebody with no rights beyond everybody's. */
const nobody = 65_534;
const jobs = 'job_id,started_at\nA,2026-03-05T14:30:00Z\n';
const readings = 'job_id,elapsed_s,vacuum_pa\nA,0,500\nA,10,400\n';

/** A folder that anybody may look into, with a store of somebody else's and a bundle that is new to it. */
async function shared(): Promise<{ folder: string; store: string; more: string }> {
  const folder = tempFolder();
  chmodSync(folder, 0o755);
  const store = join(folder, 'store');
  const first = writeFiles(join(folder, 'first'), { 'jobs.csv': jobs, 'readings.csv': readings });
  await inStore(store, (opened) => ingest(opened, [first]));
  const more = writeFiles(join(folder, 'more'), { 'readings.csv': readings.replaceAll('A,', 'B,') });
  return { folder, store, more };
}

/** Runs the command as nobody and asks for one line with status 3. */
function refusal(args: readonly string[]): string {
  const { status, stdout, stderr } = runDryhold([...args, '--quiet'], { user: nobody });
  expect([status, stdout, stderr.trimEnd().split('\n').length]).toEqual([3, '', 1]);
  expect(stderr).not.toMatch(/a bug|\n {4}at /);
  return stderr;
}

describe.skipIf(!isRoot)('for somebody who may not write', () => {
  test.each([
    ['the whole store', 0o555, 0o555, 0o444],
    ['the folder of the segments', 0o777, 0o555, 0o666],
    ['the catalogue', 0o777, 0o777, 0o444],
  ])(
    '%s: it is told in one line, changes nothing, and goes once it is allowed',
    async (_, folderMode, segments, catalogue) => {
      const { store, more } = await shared();
      const before = await contentsOf(store);
      const file = join(store, 'catalogue.duckdb');
      for (const [path, mode] of [
        [store, folderMode],
        [join(store, 'readings'), segments],
        [file, catalogue],
      ] as const)
        chmodSync(path, mode);
      expect(refusal(['ingest', more, '--store', store])).toMatch(
        /store: store cannot be written, and what was under way is undone: permission denied; once that is mended, run it again/,
      );
      expect(differencesOf(await contentsOf(store), before)).toEqual([]);
      for (const path of [store, join(store, 'readings'), file]) chmodSync(path, 0o777);
      expect(runDryhold(['ingest', more, '--store', store, '--quiet'], { user: nobody }).status).toBe(0);
    },
  );

  test('what lies in the way of a sweep in a read-only folder of segments does not hold up a judging', async () => {
    const { store } = await shared();
    writeFileSync(join(store, 'readings', 'staged-1-1.parquet'), '');
    for (const path of [store, join(store, 'catalogue.duckdb')]) chmodSync(path, 0o777);
    expect(runDryhold(['judge', '--store', store, '--quiet'], { user: nobody })).toMatchObject({
      status: 0,
      stderr: '',
    });
  });

  test('a store that a killed run left can be looked at by somebody who may only read', async () => {
    const { store, more } = await shared();
    await killAt(['ingest', more, '--store', store], store, { after: 'wal', ms: 0 });
    chmodSync(store, 0o755);
    const { status, stdout, stderr } = runDryhold(
      ['query', 'select count(*) as n from jobs', '--json', '--store', store],
      {
        user: nobody,
      },
    );
    expect([status, stderr, JSON.parse(stdout)]).toEqual([0, '', [{ n: 1 }]]);
  });

  test('an older store says that it must be taken forward first', async () => {
    const { store } = await shared();
    await inStore(store, (opened) => opened.run(`UPDATE store_version SET version = ${newestVersion - 1}`));
    expect(refusal(['query', 'select 1', '--store', store])).toContain('permission denied');
  });

  test('a folder for what is written', async () => {
    const { folder, store } = await shared();
    const out = join(folder, 'out');
    mkdirSync(out, { mode: 0o555 });
    for (const args of [
      ['export', 'jobs', '--out', join(out, 'jobs.csv')],
      ['export', 'jobs', '--format', 'arrow', '--out', join(out, 'jobs.arrow')],
      ['rejects', '--out', join(out, 'rejects.csv')],
      ['simulate', '--jobs', '2', '--out', out],
      ['shard', '--out', out],
      ['shard', '--out', join(out, 'new')],
      ['simulate', '--jobs', '2', '--out', join(out, 'new')],
      ['demo', '--out', join(out, 'demo')],
    ]) {
      const { status, stderr } = runDryhold([...args, '--store', store, '--quiet'], { user: nobody });
      expect([args[0], status, stderr.trimEnd().split('\n')]).toEqual([
        args[0],
        3,
        [expect.stringContaining('cannot be used: permission denied')],
      ]);
    }
    expect(readdirSync(out)).toEqual([]);
  });

  test('an input that may not be read is a refused file among others, and an end alone', async () => {
    const { store, more } = await shared();
    chmodSync(store, 0o777);
    for (const path of [join(store, 'readings'), join(store, 'catalogue.duckdb')]) chmodSync(path, 0o777);
    writeFiles(more, { 'people.csv': 'technician_id\nT\n' });
    chmodSync(join(more, 'people.csv'), 0o000);
    const { status, stderr } = runDryhold(['ingest', more, '--store', store], { user: nobody });
    expect([status, stderr]).toEqual([1, expect.stringMatching(/people\.csv.*permission denied/)]);
    const alone = runDryhold(['ingest', join(more, 'people.csv'), '--store', store], { user: nobody });
    expect([alone.status, alone.stderr]).toEqual([3, expect.stringMatching(/people\.csv.*permission denied/)]);
    chmodSync(join(more, 'people.csv'), 0o644);
    expect(runDryhold(['ingest', more, '--store', store], { user: nobody }).status).toBe(0);
    await inStore(store, async (opened) => {
      expect(await opened.rows('SELECT file FROM rejects')).toEqual([{ file: 'people.csv' }]);
      expect(await opened.rows('FROM people')).toHaveLength(1);
    });
  });
});

test('a file where the store should be', () => {
  const folder = writeFiles(tempFolder(), { store: 'mine', 'b/people.csv': 'technician_id\nT\n' });
  for (const store of [join(folder, 'store'), join(folder, 'store', 'below')]) {
    const { status, stderr } = runDryhold(['ingest', join(folder, 'b'), '--store', store]);
    expect([status, stderr]).toEqual([
      3,
      `dryhold: ${store}: not a readable store: a file is in the way where a folder should be\n`,
    ]);
  }
  rmSync(join(folder, 'store'));
  expect(runDryhold(['ingest', join(folder, 'b'), '--store', join(folder, 'store')]).status).toBe(0);
  expect(existsSync(join(folder, 'store', 'catalogue.duckdb'))).toBe(true);
});
