import { mkdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { bundlesBelow } from '../../src/steps/bundles-below.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { inStore, tempFolder } from '../store/temp-store.ts';
import { writeFiles } from '../write-files.ts';

const job = (id: string) => `job_id,started_at\n${id},2026-03-02T08:00:00Z\n`;
const readings = (id: string) => `job_id,elapsed_s,vacuum_pa\n${id},0,900\n${id},60,500\n`;

test('each folder that holds a bundle is one, however deep it lies; what is hidden, linked, a store or no table is not', () => {
  const folder = tempFolder();
  writeFiles(folder, {
    'people.csv': 'technician_id\nt1\n',
    'monday/jobs.csv': job('J-1'),
    'monday/readings/van-1.csv': readings('J-1'),
    'vans/two/jobs.csv': job('J-2'),
    'vans/two/notes.csv': 'a\n',
    'vans/three/export.csv': 'a\n',
    'vans/four/jobs/notes.pdf': 'x',
    'vans/four/jobs/june/people.csv': 'technician_id\nt2\n',
    'vans/three/letter.pdf': 'x',
    '.hidden/jobs.csv': job('J-3'),
    'store/catalogue.duckdb': '',
    'store/readings/1.parquet': '',
  });
  symlinkSync(join(folder, 'monday'), join(folder, 'again'));
  const { bundles, leftAside } = bundlesBelow({ path: folder, name: 'drop' });
  expect(bundles.map(({ name }) => name)).toEqual(['drop', 'drop/monday', 'drop/vans/four/jobs/june', 'drop/vans/two']);
  expect(leftAside.map(({ name }) => name)).toEqual(['drop/vans/three/export.csv']);
});

test('a folder without any bundle, and what is no folder, stand for themselves', () => {
  const folder = tempFolder();
  mkdirSync(join(folder, 'empty'));
  for (const path of [folder, join(folder, 'empty')])
    expect(bundlesBelow({ path, name: 'drop' })).toEqual({
      bundles: [{ path, name: 'drop' }],
      leftAside: [],
      refused: [],
    });
});

test('a folder that is a link out of it is refused with the reason, and the rest comes in', async () => {
  const folder = tempFolder();
  const store = join(folder, 'store');
  writeFiles(folder, { 'drop/a/jobs.csv': job('J-1'), 'elsewhere/jobs.csv': job('J-2') });
  symlinkSync(join(folder, 'elsewhere'), join(folder, 'drop', 'b'));
  const { sources, refusedFiles } = await inStore(store, (opened) => ingest(opened, [join(folder, 'drop')]));
  expect(sources.map(({ file }) => file)).toEqual(['drop/a/jobs.csv']);
  expect(refusedFiles).toEqual([
    { file: 'drop/b', detail: expect.stringContaining('a link that leads out') as string },
  ]);
});

test('a drop folder comes in whole, and again only what is new; a broken archive in it is refused, the rest comes in', async () => {
  const folder = tempFolder();
  const drop = join(folder, 'drop');
  const store = join(folder, 'store');
  writeFiles(drop, { 'a/jobs.csv': job('J-1'), 'a/readings.csv': readings('J-1'), 'b.zip': 'no archive' });
  const first = await inStore(store, (opened) => ingest(opened, [drop]));
  expect(first.sources.map(({ file, rows_kept }) => [file, rows_kept])).toEqual([
    ['drop/a/jobs.csv', 1],
    ['drop/a/readings.csv', 2],
  ]);
  expect(first.refusedFiles.map(({ file }) => file)).toEqual(['drop/b.zip']);
  writeFiles(drop, { 'c/readings.csv': readings('J-2') });
  const second = await inStore(store, (opened) => ingest(opened, [drop]));
  expect([second.sources.map(({ file }) => file), second.alreadyIn]).toEqual([
    ['drop/c/readings.csv'],
    ['drop/a/jobs.csv', 'drop/a/readings.csv'],
  ]);
});
