import { cpSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { asRecorded } from '../../../src/checks/policy.ts';
import { judgeShard } from '../../../src/steps/shard/judge-shard.ts';
import { mergeResults } from '../../../src/steps/shard/merge-results.ts';
import { runDryhold } from '../../store/run-dryhold.ts';
import { ingestFiles, inStore, tempFolder } from '../../store/temp-store.ts';
import { judgedShards, shardedStore, shardFolders } from './sharded-store.ts';

const files = {
  'readings.csv': 'job_id,elapsed_s,vacuum_pa\nA,0,500\nA,10,400\n',
  'jobs.csv': 'job_id,started_at\nA,2026-03-02T08:00:00Z\n',
};

/** Changes one byte in the midst of a file. */
function damage(path: string): void {
  const bytes = readFileSync(path);
  bytes[Math.floor(bytes.length / 2)] ^= 0xff;
  writeFileSync(path, bytes);
}

function rewrite(path: string, change: (content: Record<string, unknown>) => object): void {
  writeFileSync(path, JSON.stringify(change(JSON.parse(readFileSync(path, 'utf8')) as Record<string, unknown>)));
}

test('a shard that is not whole is refused by name, with what to do, and leaves no results', async () => {
  const folder = tempFolder();
  await shardedStore(folder, files);
  const [whole] = shardFolders(folder);
  for (const [spoil, code, says] of [
    [
      (path) => rmSync(join(path, 'shard.json')),
      'file-unreadable',
      'shard.json: cannot be read: no such file, and without it this is not a shard',
    ],
    [
      (path) => writeFileSync(join(path, 'shard.json'), '{"format":1}'),
      'file-unreadable',
      'it does not describe a shard',
    ],
    [
      (path) => rmSync(join(path, 'weighings.parquet')),
      'file-unreadable',
      'weighings.parquet: cannot be read: no such file; write the shard anew',
    ],
    [
      (path) => damage(join(path, 'readings.parquet')),
      'file-unreadable',
      'readings.parquet: cannot be read: it is not what was written',
    ],
    [
      (path) => rewrite(join(path, 'shard.json'), (own) => ({ ...own, format: 2 })),
      'file-unreadable',
      'it is of format 2, this dryhold knows 1',
    ],
    [
      (path) => rewrite(join(path, 'shard.json'), (own) => ({ ...own, method: 1 })),
      'file-unreadable',
      'a dryhold of method 1 wrote it',
    ],
    [(path) => rmSync(path, { recursive: true }), 'file-not-found', 'no such file or folder'],
  ] as const satisfies [(path: string) => void, string, string][]) {
    const spoilt = join(folder, 'spoilt');
    cpSync(whole, spoilt, { recursive: true });
    spoil(spoilt);
    const out = join(folder, 'out');
    await expect(judgeShard(spoilt, out)).rejects.toMatchObject({ code, message: expect.stringContaining(says) });
    expect(() => readdirSync(out)).toThrow('ENOENT');
    rmSync(spoilt, { recursive: true, force: true });
  }
  await expect(judgeShard(whole, folder)).rejects.toMatchObject({ code: 'bad-usage' });
  await expect(judgeShard(join(whole, 'shard.json'), join(folder, 'out'))).rejects.toMatchObject({
    code: 'bad-usage',
    message: expect.stringContaining('shard.json is a file; give --shard the folder of a shard'),
  });
});

test('results by another policy or method, of another store, or not whole are refused, and nothing is taken', async () => {
  const folder = tempFolder();
  await shardedStore(folder, files);
  const [whole] = await judgedShards(folder);
  const other = { ...asRecorded, id: 'other' };
  const limit = { value: 50, source: 'common-practice', unless_recorded: false } as const;
  const stricter = { ...asRecorded, limits: { 'rise-over-limit': { rise_limit_pa: limit } } };
  await inStore(join(folder, 'store'), async (store) => {
    const refusedBy = async (policy: typeof asRecorded, path = whole) =>
      mergeResults(store, [path], { policy }).then(
        () => 'taken',
        (error: unknown) => (error as Error).message,
      );
    expect(await refusedBy(other)).toContain('judged by policy as-recorded, not other; name the file of that policy');
    expect(await refusedBy(stricter)).toContain('had other limits when it was judged; judge the shard again');
    const spoilt = join(folder, 'spoilt');
    for (const [spoil, says] of [
      [() => rewrite(join(spoilt, 'judged.json'), (own) => ({ ...own, method: 1 })), 'its facts are by method 1'],
      [() => damage(join(spoilt, 'facts.parquet')), 'facts.parquet: cannot be read: it is not what was written'],
      [
        () => rmSync(join(spoilt, 'curves.parquet')),
        'curves.parquet: cannot be read: no such file; judge the shard again',
      ],
      [
        () => rmSync(join(spoilt, 'judged.json')),
        'nothing to read here; expected folders that "dryhold judge --shard" wrote',
      ],
    ] as const) {
      cpSync(whole, spoilt, { recursive: true });
      spoil();
      expect(await refusedBy(asRecorded, spoilt)).toContain(says);
      rmSync(spoilt, { recursive: true });
    }
    expect(await store.rows('FROM facts UNION ALL BY NAME FROM findings')).toEqual([]);
  });
  await inStore(join(folder, 'another'), async (store) => {
    await ingestFiles(store, { 'jobs.csv': 'job_id,started_at\nB,2026-03-02T08:00:00Z\n' });
    await expect(mergeResults(store, [whole])).rejects.toMatchObject({
      code: 'results-refused',
      message: expect.stringContaining('another has none of its jobs (1), so it is of another store'),
    });
  });
  await inStore(join(folder, 'same-ids'), async (store) => {
    await ingestFiles(store, { ...files, 'jobs.csv': 'job_id,started_at\nA,2026-03-03T08:00:00Z\n' });
    await expect(mergeResults(store, [whole])).rejects.toMatchObject({
      code: 'results-refused',
      message: expect.stringMatching(/none of its jobs \(1\) is in .*same-ids as its shard had it: either/),
    });
  });
});

test('options that do not go together are told of', () => {
  for (const [args, says] of [
    [['--shard', 's'], '--shard wants a folder for what is found: --results FOLDER'],
    [['--results', 'r'], '--results is where what is found of a shard goes; give --shard'],
    [['--shard', 's', '--results', 'r', '--merge', 'm'], '--shard judges one shard, --merge takes what was found'],
    [['--shard', 's', '--results', 'r', '--fail-on', 'fail'], '--fail-on asks about a store'],
    [['--shard', 's', '--results', ''], 'the name of a folder is wanted, received ""'],
  ] as const)
    expect(runDryhold(['judge', ...args])).toMatchObject({ status: 2, stderr: expect.stringContaining(says) });
});
