import { once } from 'node:events';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import { judge } from '../../../src/steps/judge.ts';
import { mergeResults } from '../../../src/steps/shard/merge-results.ts';
import type { Store } from '../../../src/store/store.ts';
import { contentsOf, differencesOf, leftoversOf } from '../../faults/store-contents.ts';
import { killAt } from '../../faults/killed-command.ts';
import { runDryhold, startDryhold } from '../../store/run-dryhold.ts';
import { exported, ingestFiles, inStore, tempFolder } from '../../store/temp-store.ts';
import { copiedFiles, judgedShards, printsOf, shardedStore, shardFolders, storeCopy } from './sharded-store.ts';

vi.setConfig({ testTimeout: 60_000 });

const small = {
  'readings.csv': 'job_id,elapsed_s,vacuum_pa\nA,0,500\nA,10,400\nB,0,500\nC,0,300\n',
  'jobs.csv': 'job_id,started_at\nA,2026-03-02T08:00:00Z\nB,2026-04-02T08:00:00Z\nC,2026-05-02T08:00:00Z\n',
};

/** All that is found of jobs. */
const foundIn = (store: Store) =>
  Promise.all(['facts', 'findings', 'curve_matches'].map((table) => exported(store, table)));

test('shards that are judged each in a process of its own and merged are the store that is judged itself, to the byte', async () => {
  const folder = tempFolder();
  await shardedStore(folder, copiedFiles());
  const [direct, merged, oneByOne] = ['direct', 'merged', 'one-by-one'].map((name) => storeCopy(folder, name));
  const shards = shardFolders(folder);
  expect(shards.map((path) => path.slice(join(folder, 'shards/').length))).toEqual([
    '2026-03/0000001-0000004',
    '2026-03/0000005-0000007',
    '2026-05/0000001-0000001',
    'undated/0000001-0000001',
  ]);
  // The first shard's results come last.
  const results = shards.map((_, index) => join(folder, 'judged', String(shards.length - index)));
  const ended = shards.map((path, index) =>
    once(
      startDryhold(['judge', '--shard', path, '--results', results[index], '--store', join(folder, 'none')]),
      'exit',
    ),
  );
  for (const exit of ended) expect((await exit)[0]).toBe(0);
  const wanted = await inStore(direct, async (store) => {
    expect(await judge(store)).toMatchObject({ judged: 9, matches: 2 });
    return printsOf(store);
  });
  await inStore(merged, async (store) => {
    expect(await mergeResults(store, [join(folder, 'judged')])).toMatchObject({
      judged: 9,
      matches: 2,
      results: 4,
      upToDate: 9,
      changed: 0,
      unknown: 0,
    });
    expect(await printsOf(store)).toEqual(wanted);
  });
  expect(differencesOf(await contentsOf(merged), await contentsOf(direct))).toEqual([]);
  expect(await leftoversOf(merged)).toEqual([]);
  const found = await inStore(direct, foundIn);
  await inStore(oneByOne, async (store) => {
    const left: number[] = [];
    for (const path of results) left.push((await mergeResults(store, [path])).unjudged);
    expect(left).toEqual([5, 2, 1, 0]);
    expect(await foundIn(store)).toEqual(found);
    expect(await mergeResults(store, [join(folder, 'judged')])).toMatchObject({ judged: 0, upToDate: 9 });
    expect(await judge(store)).toMatchObject({ judged: 0 });
  });
  expect(await inStore(merged, (opened) => judge(opened))).toMatchObject({ judged: 0 });
});

test('what changed since its shard was written is left, told of, and judged as ever', async () => {
  // Signs that the engine would take for patterns of names.
  const folder = join(tempFolder(), 'we[i]rd *');
  await shardedStore(folder, small);
  await judgedShards(folder);
  const [store, direct] = ['merged', 'direct'].map((name) => storeCopy(folder, name));
  const change = { 'jobs.csv': 'job_id,started_at,vacuum_target_pa\nB,2026-04-02T08:00:00Z,60\n' };
  for (const each of [store, direct]) await inStore(each, (opened) => ingestFiles(opened, change));
  const merge = () => runDryhold(['judge', '--merge', join(folder, 'judged'), '--store', store]);
  const { status, stdout } = merge();
  expect([status, stdout.split('\n').slice(0, 4)]).toEqual([
    1,
    [
      '2 jobs taken from 3 folders of results, by policy as-recorded',
      '1 job changed since its shard was written, and is left: what was found of it is out of date',
      `${join(folder, 'judged', '2')}: none of its jobs is as the store has it; if they did not change, it is of another store`,
      `1 job of the store is not judged yet: judge it with: dryhold judge --store '${store}'`,
    ],
  ]);
  const wanted = await inStore(direct, async (opened) => {
    await judge(opened);
    return foundIn(opened);
  });
  await inStore(store, async (opened) => {
    expect(await opened.rows('SELECT job_id FROM facts ORDER BY job_id')).toEqual([{ job_id: 'A' }, { job_id: 'C' }]);
    expect(await judge(opened)).toMatchObject({ judged: 1 });
    expect(await foundIn(opened)).toEqual(wanted);
  });
});

test('a merging that breaks off or is killed leaves nothing half known, and the same again does all of it', async () => {
  const folder = tempFolder();
  await shardedStore(folder, small);
  const results = join(folder, 'judged');
  await judgedShards(folder);
  const [store, wanted] = ['merged', 'wanted'].map((name) => storeCopy(folder, name));
  const known = (opened: Store) =>
    opened.rows(`SELECT (SELECT count(*) FROM facts) AS facts, (SELECT count(*) FROM facts_made) AS made,
      (SELECT count(DISTINCT job_id) FROM findings) AS found, (SELECT count(*) FROM findings_made) AS judged`);
  const nothing = [{ facts: 0, made: 0, found: 0, judged: 0 }];
  const onProgress = (_: string, done: number) => {
    if (done === 2) throw new Error('after the second result');
  };
  await inStore(store, async (opened) => {
    await expect(mergeResults(opened, [results], { onProgress })).rejects.toThrow('after the second result');
    expect(await known(opened)).toEqual(nothing);
  });
  const merge = ['judge', '--merge', results, '--store', store];
  await killAt(merge, store, { after: 'wal', ms: 0 });
  expect([nothing, [{ facts: 3, made: 3, found: 3, judged: 3 }]]).toContainEqual(await inStore(store, known));
  expect(runDryhold(merge).status).toBe(0);
  await inStore(wanted, (opened) => mergeResults(opened, [results]));
  expect(differencesOf(await contentsOf(store), await contentsOf(wanted))).toEqual([]);
});
