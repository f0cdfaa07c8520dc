import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ingest } from '../../../src/steps/ingest.ts';
import { judgeShard } from '../../../src/steps/shard/judge-shard.ts';
import { mergeResults } from '../../../src/steps/shard/merge-results.ts';
import { shard, type ShardOptions } from '../../../src/steps/shard/shard.ts';
import { Store } from '../../../src/store/store.ts';
import { runDryhold } from '../../store/run-dryhold.ts';
import { exported, ingestFiles, inStore, tempFolder, writeFiles } from '../../store/temp-store.ts';

/** The files below a folder, by path. */
function filesOf(folder: string): Map<string, Buffer> {
  return new Map(
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map(({ parentPath, name }) => [join(parentPath, name).slice(folder.length + 1), join(parentPath, name)] as const)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([name, path]) => [name, readFileSync(path)]),
  );
}

const shardsOf = async (store: Store, out: string, options: Partial<ShardOptions> = {}) =>
  (await shard(store, out, { jobsPerShard: 4, ...options })).shards.map(({ folder }) => folder);

const reading = (job: string) => `${job},0,500\n${job},10,400\n`;

/** Two jobs of a month, one that began the day before on the shop's clock, one without a record. */
const files = {
  'jobs.csv':
    'job_id,started_at,gauge_id\nA,2026-03-31T23:30:00-05:00,G\nC,2026-03-02T08:00:00Z,\nB,2026-04-01T00:30:00+02:00,\n',
  'gauges.csv': 'gauge_id,kind\nG,thermal\nH,thermal\n',
  'weighings.csv': 'weighing_id,job_id,cylinder_id\n1,D,Y\n2,,Z\n',
  'cylinders.csv': 'cylinder_id\nY\nZ\n',
  'readings.csv': `job_id,elapsed_s,vacuum_pa\n${['C', 'X', 'A', 'B'].map(reading).join('')}`,
};

test('all that jobs are judged by comes in again from their shards', async () => {
  const out = join(tempFolder(), 'shards');
  // A weighing that is of no job, and a gauge that no job names, are no part of what jobs are judged by.
  const { 'weighings.csv': _, 'gauges.csv': __, ...taken } = files;
  const contents = (store: Store) =>
    Promise.all(['jobs', 'readings', 'line_sets', 'weighings', 'gauges'].map((table) => exported(store, table)));
  const kept = { ...taken, 'gauges.csv': 'gauge_id,kind\nG,thermal\n', 'line_sets.csv': 'job_id,line_set_id\nB,1\n' };
  const direct = await inStore(tempFolder(), async (store) => {
    await ingestFiles(store, kept);
    expect(await shard(store, out, { jobsPerShard: 2 })).toMatchObject({ jobs: 4, readings: 8 });
    return contents(store);
  });
  const again = await inStore(tempFolder(), async (store) => {
    const { refusedFiles, namedAfterNone } = await ingest(store, [out]);
    expect([refusedFiles, namedAfterNone]).toEqual([[], []]);
    return contents(store);
  });
  expect(again).toEqual(direct);
});

test('jobs lie by the month on the clock of their shop and by range, those without a record apart, and of each table what is theirs', async () => {
  const out = join(tempFolder(), 'shards');
  await inStore(tempFolder(), async (store) => {
    await ingestFiles(store, files);
    const keys: Record<string, string> = {
      jobs: 'job_id',
      gauges: 'gauge_id',
      weighings: 'weighing_id',
      cylinders: 'cylinder_id',
      readings: 'job_id',
      revisions: 'job_id',
    };
    const shards = await shardsOf(store, out, { jobsPerShard: 1 });
    const found = await Promise.all(
      shards.map(async (folder) => {
        const ids = Object.keys(keys).map(async (table) => {
          const rows = await store.rows(
            `SELECT DISTINCT ${keys[table]} AS id FROM '${join(out, folder, table)}.parquet' ORDER BY 1`,
          );
          return rows.map(({ id }) => id).join(' ');
        });
        return [folder, ...(await Promise.all(ids))].join(' | ');
      }),
    );
    expect(found).toEqual([
      '2026-03/0000001-0000001 | A | G |  |  | A | A',
      '2026-03/0000002-0000002 | C |  |  |  | C | C',
      '2026-04/0000001-0000001 | B |  |  |  | B | B',
      'undated/0000001-0000001 |  |  | 1 | Y |  | D',
      'undated/0000002-0000002 |  |  |  |  | X | X',
    ]);
  });
});

test('equal content gives equal bytes, and shards that are no more go', async () => {
  const out = join(tempFolder(), 'shards');
  await inStore(tempFolder(), async (store) => {
    await ingestFiles(store, files);
    await shardsOf(store, out);
    const before = filesOf(out);
    await shardsOf(store, out, { jobsPerShard: 1 });
    expect(filesOf(out).size).toBeGreaterThan(before.size);
    // A folder whose run did not come to its list is a folder of shards still.
    rmSync(join(out, 'shards.json'));
    writeFiles(join(out, '.unfinished-abc'), { half: '' });
    writeFiles(out, { 'shards.json.1.part': '' });
    mkdirSync(join(out, '2026-05'));
    await shardsOf(store, out);
    rmSync(join(out, 'shards.json.1.part'));
    expect(filesOf(out)).toEqual(before);
    expect(await shardsOf(store, out, { jobsPerShard: 1, month: '2026-03' })).toHaveLength(2);
    const listed = JSON.parse(readFileSync(join(out, 'shards.json'), 'utf8')) as { shards: { folder: string }[] };
    expect(listed.shards.map(({ folder }) => folder)).toEqual([
      '2026-03/0000001-0000001',
      '2026-03/0000002-0000002',
      '2026-04/0000001-0000001',
      'undated/0000001-0000002',
    ]);
    expect([...filesOf(out).keys()].filter((name) => name.endsWith('shard.json'))).toHaveLength(4);
  });
});

test('two months that are written at once both lie there and are listed', async () => {
  const folder = tempFolder();
  const [store, out, wanted] = ['store', 'shards', 'wanted'].map((name) => join(folder, name));
  await inStore(store, async (opened) => {
    await ingestFiles(opened, files);
    for (const month of ['2026-03', '2026-04']) await shard(opened, wanted, { jobsPerShard: 10_000, month });
  });
  const opened = await Store.open(store, 'read');
  try {
    let other: number | null | undefined;
    // The other run begins and ends while this one has written what is not in its place yet.
    const onProgress = () => {
      other ??= runDryhold(['shard', '--month', '2026-04', '--out', out, '--store', store]).status;
    };
    await shard(opened, out, { jobsPerShard: 10_000, month: '2026-03', onProgress });
    expect(other).toBe(0);
  } finally {
    await opened.close();
  }
  expect(filesOf(out)).toEqual(filesOf(wanted));
});

test('where people go by code, names and notes stay at home, and what is found of the jobs is taken all the same', async () => {
  const folder = tempFolder();
  await inStore(join(folder, 'store'), async (store) => {
    await ingestFiles(store, {
      'jobs.csv': 'job_id,started_at,technician_id,note\nA,2026-03-02T08:00:00Z,Kim,asked for Kim\n',
    });
    const [name] = await shardsOf(store, join(folder, 'shards'), { codes: true });
    const path = join(folder, 'shards', name);
    const [job] = await store.rows(`FROM '${join(path, 'jobs.parquet')}'`);
    expect([job.technician_id, 'note' in job]).toEqual(['P001', false]);
    await judgeShard(path, join(folder, 'judged'));
    expect(await mergeResults(store, [join(folder, 'judged')])).toMatchObject({ judged: 1, upToDate: 1 });
  });
});

test('rows of a segment that count no more are left out', async () => {
  const out = join(tempFolder(), 'shards');
  await inStore(tempFolder(), async (store) => {
    await ingestFiles(store, files);
    await ingestFiles(store, { 'readings/late.csv': 'job_id,elapsed_s,vacuum_pa,line_c\nA,20,300,21\n' });
    const [folder] = await shardsOf(store, out);
    expect(
      await store.rows(
        `SELECT job_id, elapsed_s, line_c FROM '${join(out, folder, 'readings.parquet')}' WHERE job_id = 'A'`,
      ),
    ).toEqual([0, 10, 20].map((s) => ({ job_id: 'A', elapsed_s: s, line_c: s === 20 ? 21 : null })));
  });
});

test('what it did not write it does not replace, and a segment that is damaged is named', async () => {
  const folder = tempFolder();
  const store = join(folder, 'store');
  await inStore(store, (opened) => ingestFiles(opened, files));
  const run = (...args: string[]) => {
    const { status, stderr } = runDryhold(['shard', '--store', store, ...args]);
    return [status, stderr.trimEnd()];
  };
  const mine = writeFiles(join(folder, 'mine'), { 'notes.txt': 'mine' });
  expect(run('--out', mine)).toEqual([2, expect.stringContaining('mine holds files that are no shards')]);
  expect(readdirSync(mine)).toEqual(['notes.txt']);
  const out = join(folder, 'shards');
  expect(run('--out', out)).toEqual([0, '']);
  rmSync(join(out, '2026-04/0000001-0000001/shard.json'));
  expect(run('--out', out)).toEqual([2, expect.stringContaining('2026-04/0000001-0000001 is in the way')]);
  expect(run('--out', join(folder, 'new'), '--month', '2026-05')).toEqual([
    2,
    expect.stringContaining('no job began in 2026-05; there are 2026-03 to undated'),
  ]);
  expect(run('--out', join(folder, 'new'), '--month', 'March')).toEqual([
    2,
    expect.stringContaining('received "March"'),
  ]);
  mkdirSync(join(folder, 'kept'));
  const [segment] = readdirSync(join(store, 'readings'));
  const bytes = readFileSync(join(store, 'readings', segment));
  bytes.fill(7, 4, 40);
  writeFileSync(join(store, 'readings', segment), bytes);
  expect(run('--out', join(folder, 'kept'))).toEqual([3, expect.stringContaining(`${segment}: cannot be read`)]);
  expect(readdirSync(join(folder, 'kept'))).toEqual([]);
});
