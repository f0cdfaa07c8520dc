import { spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { expect, test, vi } from 'vitest';
import { Random } from '../../src/numerics/random.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { writeBundle } from '../../src/simulate/write-bundle.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { judge } from '../../src/steps/judge.ts';
import { bash } from '../cli/dryhold-process.ts';
import { startDryhold } from '../store/run-dryhold.ts';
import { inStore, tempFolder } from '../store/temp-store.ts';
import { writeFiles } from '../write-files.ts';
import { killOutput, outputsOf } from './kill-outputs.ts';
import { contentsOf, differencesOf } from './store-contents.ts';

vi.setConfig({ testTimeout: 300_000 });

/** A judged store with some jobs, and the bundle that it came from. */
async function judgedStore(folder: string): Promise<string> {
  const store = join(folder, 'store');
  await writeBundle(simulateFleet({ jobs: 12, seed: 3 }), join(folder, 'bundle'));
  await inStore(store, async (opened) => {
    await ingest(opened, [join(folder, 'bundle')]);
    await judge(opened);
  });
  return store;
}

test.each([
  ['SIGINT', 130],
  ['SIGTERM', 143],
  ['SIGHUP', 129],
] as const)('%s ends an ingest with the status of the signal, and nothing of it is known', async (signal, status) => {
  const folder = tempFolder();
  const store = join(folder, 'store');
  await inStore(store, (opened) =>
    ingest(opened, [writeFiles(join(folder, 'b'), { 'people.csv': 'technician_id\nT\n' })]),
  );
  const before = await contentsOf(store);
  await writeBundle(simulateFleet({ jobs: 60, seed: 3 }), join(folder, 'bundle'));
  const line = `dryhold ingest bundle --store store & until ls store/readings | grep -q staged; do sleep 0.01; done; kill -${signal} $!; wait $!`;
  // Bash lets what runs in the background of a script ignore Ctrl+C; a shell of its own is asked for.
  const run = spawnSync(
    'bash',
    ['-mc', line.replace('dryhold', `'${process.execPath}' '${join(process.cwd(), 'bin', 'dryhold.js')}'`)],
    {
      cwd: folder,
      encoding: 'utf8',
    },
  );
  expect([run.status, run.stderr]).toEqual([
    status,
    expect.stringContaining('dryhold: interrupted; what was under way is undone, run it again\n'),
  ]);
  expect(differencesOf(await contentsOf(store), before)).toEqual([]);
  await inStore(store, (opened) => ingest(opened, [join(folder, 'bundle')]));
});

test('a signal takes along what was half written', async () => {
  const folder = tempFolder();
  const out = join(folder, 'fleet');
  mkdirSync(out);
  const child = startDryhold(['simulate', '--jobs', '5000', '--out', out]);
  const ended = once(child, 'exit');
  while (readdirSync(out).length === 0 && child.exitCode === null) await delay(5);
  await delay(100);
  child.kill('SIGTERM');
  expect(await ended).toEqual([null, 'SIGTERM']);
  expect(readdirSync(out)).toEqual([]);
});

test('who reads an export may stop reading', async () => {
  const folder = tempFolder();
  await judgedStore(folder);
  for (const format of ['csv', 'ndjson', 'arrow']) {
    const { status, stderr } = bash(
      `dryhold export readings --format ${format} --store store | head -c 100 > first`,
      folder,
    );
    expect([format, status, stderr]).toEqual([format, 0, '']);
    expect(readFileSync(join(folder, 'first'))).toHaveLength(100);
  }
});

test('killed at any moment, what is written to a file or a folder is what was there before or all of the new', async () => {
  const folder = tempFolder();
  const store = await judgedStore(folder);
  const random = new Random(11);
  for (const output of outputsOf(folder, store).filter(({ isLong }) => !isLong))
    for (let point = 0; point < 3; point += 1) {
      const { moment, problems } = await killOutput(output, random);
      expect([output.name, moment, problems]).toEqual([output.name, moment, []]);
    }
});
