import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { ingest } from '../../src/steps/ingest.ts';
import type { Store } from '../../src/store/store.ts';
import { storedZip } from '../stored-zip.ts';
import { inStore, tempFolder, unbalanced } from '../store/temp-store.ts';

type Files = Record<string, string | Buffer>;

/** A folder with these files, and a store to take them into. */
async function withFiles(files: Files, work: (folder: string, store: Store) => Promise<void>): Promise<void> {
  const folder = tempFolder();
  for (const [name, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), content);
  }
  await inStore(join(folder, 'store'), async (store) => {
    await work(folder, store);
    expect(await unbalanced(store)).toEqual([]);
  });
}

const map = (further: object, ...rows: object[]) => JSON.stringify({ name: 'ours', ...further, rows });
const readings = (columns: object, further: object = {}) => ({ table: 'readings', ...further, columns });
const seriesOf = (store: Store) =>
  store.rows('SELECT job_id AS job, elapsed_s AS s, vacuum_pa AS pa FROM readings ORDER BY ALL');
const byName = { job_id: { file_name: true }, elapsed_s: { column: 't' }, vacuum_pa: { column: 'v' } };

test('two tables of one large file, with readings of one job in both', async () => {
  const lines = Array.from({ length: 20_000 }, (_, row) => `${row},${row % 100}`).join('\n');
  const parts = { vac: { after_line: '[VAC]', until_line: '[' }, scale: { after_line: '[SCALE]' } };
  const files = {
    'map.json': map(
      { parts },
      readings(byName, { part: 'vac' }),
      readings(
        { job_id: { file_name: true }, elapsed_s: { column: 't' }, scale_kg: { column: 'kg' } },
        { part: 'scale' },
      ),
    ),
    'J1.csv': `[VAC]\nt,v\n${lines}\n[SCALE]\nt,kg\n${lines}\n`,
  };
  await withFiles(files, async (folder, store) => {
    await ingest(store, [join(folder, 'J1.csv')], { map: join(folder, 'map.json') });
    const [counts] = await store.rows(
      'SELECT count(*) AS n, count(vacuum_pa) AS v, count(scale_kg) AS s FROM readings',
    );
    expect(counts).toEqual({ n: 20_000, v: 20_000, s: 20_000 });
  });
});

test.each([
  ['an open quote above the table', 'a 3/8" hose\nof ours\n', { skip_lines: 2 }],
  ['a quoted line break above the table', '"a recorder\nof ours"\n', { skip_lines: 2 }],
  ['quotes that close', '"a recorder",x\n', { skip_lines: 1 }],
])('every row of a large file below %s', async (_, head, layout) => {
  const lines = Array.from({ length: 30_000 }, (__, row) => `${row},${row % 100}.5`).join('\n');
  const files = { 'map.json': map({ file: layout }, readings(byName)), 'J1.csv': `${head}t,v\n${lines}\n` };
  await withFiles(files, async (folder, store) => {
    const { sources } = await ingest(store, [join(folder, 'J1.csv')], { map: join(folder, 'map.json') });
    expect(sources).toMatchObject([{ rows_read: 30_000, rows_kept: 30_000 }]);
    expect((await seriesOf(store)).at(0)).toEqual({ job: 'J1', s: 0, pa: 0.5 });
  });
});

test('a log by times of day that goes on in a second file', async () => {
  const clock = { job_id: { constant: 'J' }, elapsed_s: { column: 't', time: 'clock' }, vacuum_pa: { column: 'v' } };
  const files = {
    'map.json': map({}, readings(clock)),
    '1.csv': 't,v\n23:59:40,700\n23:59:50,600\n',
    '2.csv': 't,v\n00:00:00,500\n00:00:10,400\n',
  };
  await withFiles(files, async (folder, store) => {
    const names = ['1.csv', '2.csv'].map((name) => join(folder, name));
    const { overruled } = await ingest(store, names, { map: join(folder, 'map.json') });
    expect(overruled).toEqual([]);
    expect((await seriesOf(store)).map(({ s, pa }) => [s, pa])).toEqual([
      [0, 700],
      [10, 600],
      [20, 500],
      [30, 400],
    ]);
  });
});

test('what a later file overrules is told', async () => {
  const files = {
    'map.json': map({}, readings({ ...byName, job_id: { constant: 'J' } })),
    'a.csv': 't,v\n0,700\n10,600\n',
    'b.csv': 't,v\n0,70\n10,60\n',
  };
  await withFiles(files, async (folder, store) => {
    const { overruled } = await ingest(store, [join(folder, '*.csv')], { map: join(folder, 'map.json') });
    expect(overruled).toEqual([{ file: 'a.csv', by: 'b.csv', jobs: 1 }]);
  });
});

test('files of one name in two folders are two files', async () => {
  const files = {
    'map.json': map({}, readings({ ...byName, job_id: { constant: 'J' } })),
    'd/mon/vac.csv': 't,v\n0,700\n1,600\n',
    'd/tue/vac.csv': 't,v\n100,70\n101,60\n',
  };
  const ways: [paths: string[], names: string[]][] = [
    [['d/*/vac.csv'], [join('mon', 'vac.csv'), join('tue', 'vac.csv')]],
    [
      ['d/mon/vac.csv', 'd/tue/vac.csv'],
      [join('mon', 'vac.csv'), join('tue', 'vac.csv')],
    ],
    [
      ['d/mon', 'd/tue'],
      [join('mon', 'vac.csv'), join('tue', 'vac.csv')],
    ],
  ];
  for (const [paths, names] of ways)
    await withFiles(files, async (folder, store) => {
      const given = paths.map((path) => join(folder, path));
      const { sources } = await ingest(store, given, { map: join(folder, 'map.json') });
      expect(sources.map(({ file }) => file)).toEqual(names);
      expect(await seriesOf(store)).toHaveLength(4);
    });
});

test('a single map that says what its files look like takes no others, packed or by name', async () => {
  const files = {
    'map.json': map({ looks_like: { file_name: 'vac-*.csv' } }, readings(byName)),
    'd/vac-1.csv': 't,v\n0,700\n',
    'd/scale-1.csv': 't,v\n0,12.5\n',
    'd/scale-2.csv.gz': gzipSync('t,v\n0,12.5\n'),
  };
  await withFiles(files, async (folder, store) => {
    const { leftAside } = await ingest(store, [join(folder, 'd')], { map: join(folder, 'map.json') });
    expect(leftAside).toEqual([join('d', 'scale-1.csv'), join('d', 'scale-2.csv.gz')]);
    const { refusedFiles } = await ingest(store, [join(folder, 'd', '*.csv')], { map: join(folder, 'map.json') });
    expect(refusedFiles).toMatchObject([{ file: 'scale-1.csv' }]);
    expect((await seriesOf(store)).map(({ job }) => job)).toEqual(['vac-1']);
  });
});

test('an archive with one odd file gives the others', async () => {
  const zip = storedZip([
    { name: 'a.csv', content: 't,v\n0,1\n' },
    { name: 'b.csv', content: 'x,y\n0,2\n' },
    { name: 'c.csv', content: 't,v\n0,3\n' },
  ]);
  await withFiles({ 'map.json': map({}, readings(byName)), 'd.zip': zip }, async (folder, store) => {
    const { refusedFiles } = await ingest(store, [join(folder, 'd.zip')], { map: join(folder, 'map.json') });
    expect(refusedFiles).toMatchObject([{ file: 'd.zip/b.csv' }]);
    expect((await seriesOf(store)).map(({ job }) => job)).toEqual(['a', 'c']);
  });
});

test('a job of a document without its list, and one whose list is null', async () => {
  const document = {
    jobs: [{ id: 'A', readings: [{ t: 0, v: 1 }] }, { id: 'B' }, { id: 'C', readings: null }],
  };
  const columns = { job_id: { column: '^.id' }, elapsed_s: { column: 't' }, vacuum_pa: { column: 'v' } };
  const files = {
    'map.json': map({ file: { kind: 'json', rows_at: 'jobs.*.readings.*' } }, readings(columns)),
    'd.json': JSON.stringify(document),
  };
  await withFiles(files, async (folder, store) => {
    await ingest(store, [join(folder, 'd.json')], { map: join(folder, 'map.json') });
    expect(await seriesOf(store)).toEqual([{ job: 'A', s: 0, pa: 1 }]);
  });
});

test('what stands once in a file outlives a first row that is wrong, and is refused once where no row gives it', async () => {
  const job = {
    table: 'jobs',
    once: true,
    columns: { job_id: { file_name: true }, started_at: { column: 'at', time: 'local' } },
  };
  const files = {
    'map.json': map({ time_zone: 'UTC' }, job, readings(byName)),
    'A.csv': 't,v,at\n0,ERR,2026-03-05 10:00\n1,5,2026-03-05 10:00\n',
    'B.csv': 't,v,at\n0,4,soon\n1,5,later\n',
  };
  await withFiles(files, async (folder, store) => {
    await ingest(store, [join(folder, '*.csv')], { map: join(folder, 'map.json') });
    expect(await store.rows('SELECT job_id FROM jobs')).toEqual([{ job_id: 'A' }]);
    expect((await seriesOf(store)).map(({ job: of, s }) => `${String(of)} ${String(s)}`)).toEqual([
      'A 1',
      'B 0',
      'B 1',
    ]);
    expect(await store.rows('SELECT file, line, table_name FROM rejects ORDER BY ALL')).toEqual([
      { file: 'A.csv', line: 2, table_name: 'readings' },
      { file: 'B.csv', line: 2, table_name: 'jobs' },
    ]);
  });
});

test('rows that stand on one line are booked one by one', async () => {
  const line = (...values: number[]) => `${JSON.stringify({ job: 'J', log: values.map((v, t) => ({ t, v })) })}\n`;
  const columns = { job_id: { column: '^.job' }, elapsed_s: { column: 't' }, vacuum_pa: { column: 'v' } };
  const files = {
    'map.json': map({ file: { kind: 'ndjson', rows_at: 'log' } }, readings(columns)),
    'a.ndjson': line(1, 2, 3, 4),
    'b.ndjson': `${line(1, 2, 3, 4)}\n`,
  };
  await withFiles(files, async (folder, store) => {
    const take = async (name: string) =>
      (await ingest(store, [join(folder, name)], { map: join(folder, 'map.json') })).sources;
    expect(await take('a.ndjson')).toMatchObject([{ rows_read: 4, rows_kept: 4 }]);
    expect(await take('b.ndjson')).toMatchObject([{ rows_read: 4, rows_kept: 0, rows_repeated: 4 }]);
  });
});

test('identical logs of two jobs are two logs', async () => {
  const files = { 'map.json': map({}, readings(byName)), 'J7.csv': 't,v\n0,over\n', 'J8.csv': 't,v\n0,over\n' };
  await withFiles(files, async (folder, store) => {
    for (const name of ['J7.csv', 'J8.csv'])
      await ingest(store, [join(folder, name)], { map: join(folder, 'map.json') });
    expect((await seriesOf(store)).map(({ job }) => job)).toEqual(['J7', 'J8']);
  });
});

test('a file that was refused does not say when a log began', async () => {
  const local = { job_id: { constant: 'J' }, elapsed_s: { column: 't', time: 'local' }, vacuum_pa: { column: 'v' } };
  const files = {
    'map.json': map({}, readings(local)),
    '1.csv': 't,v\n2025-03-05 10:00:00,700\n2025-03-05 10:00:10,"600\n',
    '2.csv': 't,v\n2026-03-05 10:00:00,700\n',
  };
  await withFiles(files, async (folder, store) => {
    const { refusedFiles } = await ingest(store, [join(folder, '*.csv')], { map: join(folder, 'map.json') });
    expect(refusedFiles).toMatchObject([{ file: '1.csv' }]);
    expect(await seriesOf(store)).toEqual([{ job: 'J', s: 0, pa: 700 }]);
  });
});

test('a file in which none of the tables is found that it may come without is refused', async () => {
  const parts = { vac: { after_line: '[VACUUM]', optional: true } };
  const files = { 'map.json': map({ parts }, readings(byName, { part: 'vac' })), 'J.csv': '[LOG]\nt,v\n0,1\n' };
  await withFiles(files, async (folder, store) => {
    const { refusedFiles } = await ingest(store, [join(folder, 'J.csv')], { map: join(folder, 'map.json') });
    expect(refusedFiles).toEqual([{ file: 'J.csv', detail: "none of the map's tables is in it" }]);
  });
});

test('a folder that was packed as one is a bundle', async () => {
  const zip = storedZip([{ name: 'june/readings.csv', content: 'job_id,elapsed_s,vacuum_pa\nA,0,1\n' }]);
  await withFiles({ 'june.zip': zip }, async (folder, store) => {
    const { sources } = await ingest(store, [join(folder, 'june.zip')]);
    expect(sources.map(({ file }) => file)).toEqual([join('june.zip', 'june', 'readings.csv')]);
  });
});

test("a gauge's and a scale's logs of many jobs share a transaction", async () => {
  const files: Files = {
    'vac.json': map(
      { looks_like: { file_name: '*-vac.csv' } },
      readings({ ...byName, job_id: { file_name: true, before: '-' } }),
    ),
    'kg.json': map(
      { looks_like: { file_name: '*-kg.csv' } },
      readings({ job_id: { file_name: true, before: '-' }, elapsed_s: { column: 't' }, scale_kg: { column: 'kg' } }),
    ),
  };
  for (let job = 0; job < 20; job += 1) {
    files[`d/J${job}-kg.csv`] = 't,kg\n0,5\n1,4\n';
    files[`d/J${job}-vac.csv`] = 't,v\n0,700\n2,600\n';
  }
  await withFiles(files, async (folder, store) => {
    await ingest(store, [join(folder, 'd')], { map: ['vac.json', 'kg.json'].map((name) => join(folder, name)) });
    const counts = await store.rows('SELECT count(*) AS n, count(vacuum_pa) AS v, count(scale_kg) AS s FROM readings');
    expect(counts).toEqual([{ n: 60, v: 40, s: 40 }]);
    expect(await store.rows('FROM segments')).toHaveLength(1);
  });
});
