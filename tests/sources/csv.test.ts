import { join } from 'node:path';
import { expect, test } from 'vitest';
import { csv } from '../../src/sources/csv.ts';
import type { Layout } from '../../src/sources/source-file.ts';
import { tempFolder, writeFiles } from '../store/temp-store.ts';

/** The columns of a text, and each row with its line. */
async function read(text: string, layout: Layout = {}) {
  const source = await csv.rows(join(writeFiles(tempFolder(), { 'a.csv': text }), 'a.csv'), layout);
  const rows = [];
  for await (const { line, cells, problem } of source.rows) rows.push([line, problem ?? cells?.join('|')]);
  return { columns: source.columns, rows };
}

test('a row is named by the line on which it begins, whatever ends lines', async () => {
  const text = '\n\na,b\n\n1,"x\ny"\n \t \n2,3\n"\n\n4",5';
  const rows = [
    [5, '1|x\ny'],
    [8, '2|3'],
    [9, '\n\n4|5'],
  ];
  expect(await read(text)).toEqual({ columns: ['a', 'b'], rows });
  const windows = rows.map(([line, cells]) => [line, String(cells).replaceAll('\n', '\r\n')]);
  expect(await read(text.replaceAll('\n', '\r\n'))).toEqual({ columns: ['a', 'b'], rows: windows });
});

test('skipped lines may hold anything, and count', async () => {
  expect(await read('made by "x\r\na,b,"c\r\n\r\nn;m\r\n1;2,5\r\n', { skipLines: 3, delimiter: ';' })).toEqual({
    columns: ['n', 'm'],
    rows: [[5, '1|2,5']],
  });
});

test('tabs part cells and are not blank lines where they are the delimiter', async () => {
  expect(await read('a\tb\tc\n1\t\t3\n\t\t\n4\t5\t6\n', { delimiter: '\t' })).toEqual({
    columns: ['a', 'b', 'c'],
    rows: [
      [2, '1||3'],
      [3, '||'],
      [4, '4|5|6'],
    ],
  });
});

test('without a header, columns go by position', async () => {
  expect(await read('1,2\n3,4\n', { header: false })).toEqual({
    columns: ['1', '2'],
    rows: [
      [1, '1|2'],
      [2, '3|4'],
    ],
  });
});

test('a quote within a cell is itself; cells too many or too few are told, empty ones at the end are not', async () => {
  const { rows } = await read('a,b\n5" pipe,x\n1,"a"b\n1\n1,2,,\n1,2,3\n');
  expect(rows).toEqual([
    [2, '5" pipe|x'],
    [3, '1|"a"b'],
    [4, '1 fields where the header has 2'],
    [5, '1|2||'],
    [6, '3 fields where the header has 2'],
  ]);
});

test('a file may be let go of before its end', async () => {
  const source = await csv.rows(join(writeFiles(tempFolder(), { 'a.csv': `a\n${'1\n'.repeat(1e6)}` }), 'a.csv'), {});
  await source.close?.();
  const rows = [];
  for await (const row of source.rows) rows.push(row);
  expect(rows).toEqual([]);
});
