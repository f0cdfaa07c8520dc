import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { ingest } from '../../src/steps/ingest.ts';
import { inStore, tempFolder, unbalanced, writeFiles } from '../store/temp-store.ts';

const map = (name: string, column: string, more: object = {}) => ({
  name,
  ...more,
  rows: [
    {
      table: 'readings',
      columns: { job_id: { file_name: true }, elapsed_s: { column: 't' }, vacuum_pa: { column } },
    },
  ],
});

/** Which file went through which of several maps, and what was refused or left aside. */
async function taken(maps: Record<string, object>, files: Record<string, string | Buffer>, only?: string) {
  const folder = tempFolder();
  writeFiles(
    folder,
    Object.fromEntries(Object.entries(maps).map(([name, content]) => [name, JSON.stringify(content)])),
  );
  writeFiles(join(folder, 'logs'), files);
  const paths = Object.keys(maps).map((name) => join(folder, name));
  return inStore(join(folder, 'store'), async (store) => {
    const result = await ingest(store, [join(folder, 'logs', only ?? '')], { map: paths });
    expect(await unbalanced(store)).toEqual([]);
    const jobs = await store.rows<{ job_id: string; pa: number }>(
      'SELECT job_id, max(vacuum_pa) AS pa FROM readings GROUP BY ALL ORDER BY ALL',
    );
    return {
      jobs: Object.fromEntries(jobs.map(({ job_id, pa }) => [job_id, pa])),
      refused: result.refusedFiles.map(({ file, detail }) => `${file}: ${detail}`),
      leftAside: result.leftAside,
    };
  });
}

const log = (columns: string) => `${columns}\n0,1,2\n`;

test('of several maps that may be meant, the one whose columns the file has', async () => {
  expect(
    await taken(
      { 'a.json': map('a', 'x'), 'b.json': map('b', 'y') },
      { 'J1.csv': log('t,x,z'), 'J2.csv': log('t,z,y') },
    ),
  ).toEqual({
    jobs: { J1: 1, J2: 2 },
    refused: [],
    leftAside: [],
  });
});

test('the one that takes the first row', async () => {
  const kelvin = {
    ...map('b', 'x'),
    rows: [
      {
        table: 'readings',
        columns: {
          job_id: { file_name: true },
          elapsed_s: { column: 't', time: 'elapsed' },
          vacuum_pa: { column: 'x' },
        },
      },
    ],
  };
  expect(
    await taken({ 'a.json': map('a', 'x'), 'b.json': kelvin }, { 'J1.csv': 't,x\n0:00,7\n', 'J2.csv': 't,x\n0,8\n' }),
  ).toMatchObject({
    jobs: { J1: 7, J2: 8 },
    refused: [],
  });
});

test('what a map says of its files goes before; names are those of what is packed', async () => {
  const maps = {
    'dusk.json': map('dusk', 'x', { looks_like: { file_name: 'dusk-*.csv' } }),
    'dawn.json': map('dawn', 'y', { looks_like: { file_name: '*.csv', has: ['dawn', 't,x'] } }),
    'lines.json': map('lines', 'x', { file: { kind: 'ndjson' } }),
  };
  expect(
    await taken(maps, {
      'dusk-1.csv': log('t,x,y'),
      'dusk-2.csv.gz': gzipSync('t,x\n0,5\n'),
      'J3.csv': log('t,x,y,dawn').replace('2', '2,'),
      'J4.ndjson': '{"t":0,"x":4}\n',
      'J5.csv': log('t,x,y'),
    }),
  ).toEqual({ jobs: { 'dusk-1': 1, 'dusk-2': 5, J3: 2, J4: 4 }, refused: [], leftAside: ['logs/J5.csv'] });
});

test('where none fits, or several do, the file is refused and says so', async () => {
  const maps = { 'a.json': map('a', 'x'), 'b.json': map('b', 'y') };
  expect(await taken(maps, { 'J1.csv': log('t,x,y'), 'J2.csv': log('t,v,w') })).toEqual({
    jobs: {},
    refused: [
      'logs/J1.csv: several maps fit: "a", "b"; say in "looks_like" how to tell their files apart',
      'logs/J2.csv: no map fits it: "a", "b"; draft one with: dryhold map logs/J2.csv',
    ],
    leftAside: [],
  });
});

test('a table of a map that the file lacks makes it another’s', async () => {
  const two = {
    ...map('two', 'x'),
    parts: { one: { until_line: 'second' }, two: { after_line: 'second' } },
    rows: [
      { ...map('two', 'x').rows[0], part: 'one' },
      { table: 'people', part: 'two', columns: { technician_id: { column: 'who' } } },
    ],
  };
  const files = { 'J1.csv': 't,x\n0,1\nsecond\nwho\npip-lathe\n', 'J2.csv': 't,y\n0,2\n' };
  expect(await taken({ 'two.json': two, 'one.json': map('one', 'y') }, files)).toMatchObject({
    jobs: { J1: 1, J2: 2 },
    refused: [],
  });
});
