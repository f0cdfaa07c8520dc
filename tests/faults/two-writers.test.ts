import { once } from 'node:events';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import { ingest } from '../../src/steps/ingest.ts';
import { Store } from '../../src/store/store.ts';
import { runDryhold, startDryhold } from '../store/run-dryhold.ts';
import { inStore, tempFolder } from '../store/temp-store.ts';
import { writeFiles } from '../write-files.ts';
import { killAt } from './killed-command.ts';
import { contentsOf, differencesOf, leftoversOf } from './store-contents.ts';

vi.setConfig({ testTimeout: 300_000 });

/** A bundle with one job. */
function bundleOf(folder: string, job: string): string {
  return writeFiles(join(folder, job), {
    'jobs.csv': `job_id,started_at\n${job},2026-03-05T14:30:00Z\n`,
    'readings.csv': `job_id,elapsed_s,vacuum_pa\n${job},0,500\n${job},10,400\n`,
  });
}

test('two that begin a store at the same moment: one waits its turn or is told to, and the store is whole, 20 times', async () => {
  const folder = tempFolder();
  const bundles = ['A', 'B'].map((job) => bundleOf(folder, job));
  const undisturbed = join(folder, 'undisturbed');
  await inStore(undisturbed, async (store) => {
    for (const bundle of bundles) await ingest(store, [bundle]);
  });
  const wanted = await contentsOf(undisturbed);
  for (let time = 0; time < 20; time += 1) {
    const store = join(folder, `store-${time}`);
    // On every other time the folder is there already, and empty.
    if (time % 2 === 1) mkdirSync(store);
    const runs = bundles.map((bundle) => startDryhold(['ingest', bundle, '--store', store]));
    const statuses = (await Promise.all(runs.map((run) => once(run, 'exit')))).map(([status]) => status as number);
    expect(statuses).toContain(0);
    for (const status of statuses) expect([0, 3]).toContain(status);
    for (const [index, bundle] of bundles.entries())
      if (statuses[index] === 3) await inStore(store, (opened) => ingest(opened, [bundle]));
    expect(differencesOf(await contentsOf(store), wanted)).toEqual([]);
    expect(await leftoversOf(store)).toEqual([]);
  }
});

test('while one looks another may look, and who would write is told who looks', async () => {
  const folder = tempFolder();
  const store = join(folder, 'store');
  await inStore(store, (opened) => ingest(opened, [bundleOf(folder, 'A')]));
  const before = await contentsOf(store);
  const more = bundleOf(folder, 'B');
  const looking = await Store.open(store, 'read');
  try {
    const look = runDryhold(['query', 'select count(*) as n from jobs', '--json', '--store', store]);
    expect([look.status, JSON.parse(look.stdout)]).toEqual([0, [{ n: 1 }]]);
    expect(runDryhold(['ingest', more, '--store', store])).toEqual({
      status: 3,
      stdout: '',
      stderr: `dryhold: ${store}: store is in use by process ${process.pid}; wait until it is done, then try again\n`,
    });
  } finally {
    await looking.close();
  }
  expect(differencesOf(await contentsOf(store), before)).toEqual([]);
  expect(runDryhold(['ingest', more, '--store', store]).status).toBe(0);
});

test('what a killed run held is held no longer', async () => {
  const folder = tempFolder();
  const store = join(folder, 'store');
  await inStore(store, (opened) => ingest(opened, [bundleOf(folder, 'A')]));
  const more = bundleOf(folder, 'B');
  const hit = await killAt(['ingest', more, '--store', store], store, { after: 'staged', ms: 0 });
  expect(hit).toBe(true);
  expect(runDryhold(['ingest', more, '--store', store])).toMatchObject({ status: 0, stderr: '' });
});
