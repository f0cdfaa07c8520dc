import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ingest } from '../../src/steps/ingest.ts';
import { inStore, tempFolder, unbalanced, writeFiles } from '../store/temp-store.ts';
import { mapped } from './mapped-file.ts';

test('a table that a file may come without', async () => {
  const map = (optional: boolean) => ({
    parts: { log: { header_begins: 't,', until_line: '[' }, scale: { after_line: '[scale]', optional } },
    rows: [
      {
        table: 'readings',
        part: 'log',
        columns: { job_id: { file_name: true }, elapsed_s: { column: 't' }, line_c: { column: 'c' } },
      },
      { table: 'weighings', part: 'scale', columns: { weighing_id: { column: 'w' }, start_kg: { column: 'kg' } } },
    ],
  });
  const log = 't,c\n0,20\n1,21\n';
  const [without, within] = [await mapped(map(true), log), await mapped(map(true), `${log}[scale]\nw,kg\nW1,5\n`)];
  expect([without, within].map(({ readings }) => readings.length)).toEqual([2, 2]);
  expect(without.sources).toMatchObject([{ table_name: 'readings' }, { table_name: 'weighings', rows_read: 0 }]);
  expect(within.sources).toMatchObject([{}, { table_name: 'weighings', rows_kept: 1 }]);
  expect(await mapped(map(false), log)).toMatchObject({ readings: [], rejects: [{ line: 0 }] });
});

test('channels on lines of their own become one reading; two values of one channel at one time do not', async () => {
  const line = (word: string, name: string) => ({
    table: 'readings',
    only: { column: 'channel', is: [word] },
    columns: { job_id: { file_name: true }, elapsed_s: { column: 't' }, [name]: { column: 'value' } },
  });
  const { readings, rejects, sources } = await mapped(
    { rows: [line('pipe', 'line_c'), line('scale', 'scale_kg')] },
    't,channel,value\n0,pipe,20\n0,scale,5\n1,scale,4\n1,pipe,21\n2,pipe,22\n2,pipe,23\n',
  );
  expect(readings).toEqual([
    { job_id: 'J-7', elapsed_s: 0, line_c: 20, scale_kg: 5 },
    { job_id: 'J-7', elapsed_s: 1, line_c: 21, scale_kg: 4 },
    { job_id: 'J-7', elapsed_s: 2, line_c: 22 },
  ]);
  expect(rejects).toMatchObject([{ line: 7, reason_id: 'contradicts-earlier-row' }]);
  expect(sources).toMatchObject([{ rows_read: 6, rows_kept: 5, rows_rejected: 1 }]);
});

test('the same bytes under another name are another file where the map reads the name, and else are in already', async () => {
  const folder = writeFiles(tempFolder(), {
    'by-name.json': JSON.stringify({
      name: 'by name',
      rows: [
        {
          table: 'readings',
          columns: { job_id: { file_name: true }, elapsed_s: { column: 't' }, line_c: { column: 'c' } },
        },
      ],
    }),
    'by-column.json': JSON.stringify({
      name: 'by column',
      rows: [
        {
          table: 'readings',
          columns: { job_id: { column: 'j' }, elapsed_s: { column: 't' }, line_c: { column: 'c' } },
        },
      ],
    }),
    'logs/A.csv': 'j,t,c\nX,0,20\nX,1,21\n',
    'logs/B.csv': 'j,t,c\nX,0,20\nX,1,21\n',
  });
  for (const [map, again, jobs] of [
    ['by-name.json', [], ['A', 'B']],
    ['by-column.json', [join('logs', 'B.csv')], ['X']],
  ] as const) {
    await inStore(join(folder, `store of ${map}`), async (store) => {
      const take = () => ingest(store, [join(folder, 'logs')], { map: join(folder, map) });
      expect((await take()).alreadyIn).toEqual(again);
      expect((await take()).alreadyIn).toEqual([join('logs', 'A.csv'), join('logs', 'B.csv')]);
      const found = await store.rows('SELECT job_id, count(*) AS n FROM readings GROUP BY ALL ORDER BY ALL');
      expect(found).toEqual(jobs.map((job_id) => ({ job_id, n: 2 })));
      expect(await unbalanced(store)).toEqual([]);
    });
  }
});
