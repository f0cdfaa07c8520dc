import { truncateSync } from 'node:fs';
import { join } from 'node:path';
import { writeXlsx } from 'hucre/xlsx';
import { describe, expect, test } from 'vitest';
import type { Layout } from '../../src/sources/source-file.ts';
import { firstSheetRows, xlsx } from '../../src/sources/xlsx.ts';
import { storedZip } from '../stored-zip.ts';
import { tempFolder, writeFiles } from '../store/temp-store.ts';

type Cell = string | number | boolean | Date | null;

async function book(sheets: Record<string, Cell[][]>): Promise<string> {
  const content = await writeXlsx({ sheets: Object.entries(sheets).map(([name, rows]) => ({ name, rows })) });
  return file(Buffer.from(content));
}

const file = (content: Buffer | string) => join(writeFiles(tempFolder(), { 'a.xlsx': content }), 'a.xlsx');

async function read(path: string, layout: Layout = {}) {
  const { columns, units, rows: source } = await xlsx.rows(path, layout);
  const rows = [];
  for await (const { line, cells } of source) rows.push([line, ...(cells ?? [])]);
  return { columns, ...(units === undefined ? {} : { units }), rows };
}

const day = (...parts: [number, number, number, number?, number?, number?, number?]) => {
  const [year, month, ...rest] = parts;
  return new Date(Date.UTC(year, month - 1, ...(rest as [number])));
};

describe('tables of a sheet', () => {
  const sheets = {
    Cover: [
      ['Title', null],
      [],
      ['s', 'deep'],
      ['sec', 'mbar'],
      [],
      [0, 5],
      [null, null],
      [10, 4],
      ['End', null],
      [20, 3],
    ],
    Second: [
      [null, 'x', 'y'],
      [null, 1, true],
      [null, 2, false],
      [null, 3, null],
    ],
  };
  test.each<[string, Layout, Awaited<ReturnType<typeof read>>]>([
    [
      'lines to skip',
      { skipLines: 2 },
      {
        columns: ['s', 'deep'],
        rows: [
          [4, 'sec', 'mbar'],
          [6, 0, 5],
          [8, 10, 4],
          [9, 'End'],
          [10, 20, 3],
        ],
      },
    ],
    [
      'units, and an end',
      { headerBegins: 's', unitRow: true, untilLine: 'End' },
      {
        columns: ['s', 'deep'],
        units: ['sec', 'mbar'],
        rows: [
          [6, 0, 5],
          [8, 10, 4],
        ],
      },
    ],
    [
      'after a line, further lines',
      { afterLine: 'Tit', skipAfterHeader: 2, untilLine: 'End' },
      { columns: ['s', 'deep'], rows: [[8, 10, 4]] },
    ],
    [
      'a sheet by name, a range',
      { sheet: 'Second', range: 'b1:c3' },
      {
        columns: ['x', 'y'],
        rows: [
          [2, 1, 'true'],
          [3, 2, 'false'],
        ],
      },
    ],
    [
      'a sheet by place, a range below its top',
      { sheet: 2, range: 'C2:C9' },
      { columns: ['true'], rows: [[3, 'false']] },
    ],
  ])('%s', async (_, layout, found) => {
    expect(await read(await book(sheets), layout)).toEqual(found);
  });

  test('without a header, cells have positions past the end of a first row that is short', async () => {
    const { columns, rows } = await read(await book({ A: [['End'], [1, null], [2, 3]] }), {
      afterLine: 'End',
      header: false,
    });
    expect(columns.slice(0, 3)).toEqual(['1', '2', '3']);
    expect(rows).toEqual([
      [2, 1],
      [3, 2, 3],
    ]);
  });

  test('first rows, for values that stand above a table', async () => {
    expect(await firstSheetRows(await book(sheets), 'Second', 2)).toEqual([
      { line: 1, cells: [null, 'x', 'y'] },
      { line: 2, cells: [null, 1, 'true'] },
    ]);
  });
});

test('dates are the text on their clock, to the millisecond', async () => {
  const path = await book({
    A: [
      ['at'],
      [day(2026, 3, 6, 8, 15)],
      [day(2026, 3, 6, 8, 15, 10)],
      [day(2026, 3, 6, 8, 15, 10, 250)],
      [day(2026, 3, 6)],
      [46_087.5],
    ],
  });
  expect((await read(path)).rows).toEqual([
    [2, '2026-03-06 08:15:00'],
    [3, '2026-03-06 08:15:10'],
    [4, '2026-03-06 08:15:10.250'],
    [5, '2026-03-06 00:00:00'],
    [6, 46_087.5],
  ]);
});

describe('what cannot be read is told', () => {
  const sheets = { A: [['a'], [1]] };
  test.each<[string, () => string | Promise<string>, Layout, string]>([
    ['a sheet that is not there', () => book(sheets), { sheet: 'B' }, 'sheet "B"'],
    ['a place past the last sheet', () => book(sheets), { sheet: 3 }, 'sheet "3"'],
    ['an empty sheet', () => book({ A: [] }), {}, 'its first sheet is not there, or empty where the map looks'],
    ['an empty range', () => book(sheets), { range: 'D9:F12' }, 'is not there, or empty where the map looks'],
    ['a text', () => file('a,b\n1,2\n'), {}, 'no workbook that can be read'],
    [
      'an archive of something else',
      () => file(storedZip([{ name: 'a.csv', content: 'a' }])),
      {},
      'no workbook that can be read',
    ],
    [
      'a workbook that breaks off',
      () => file(storedZip([{ name: 'a.csv', content: 'a' }]).subarray(0, 40)),
      {},
      'no workbook that can be read',
    ],
    [
      'a sheet as wide as no table',
      () => book({ A: [Array<number>(4097).fill(1)] }),
      {},
      'row 1 has more than 4096 cells',
    ],
    [
      'one that unpacks to too much',
      () => file(storedZip([{ name: 'xl/workbook.xml', content: 'a', method: 8, unpackedBytes: 1024 ** 3 + 1 }])),
      {},
      'it unpacks to more than 1024 MiB',
    ],
  ])('%s', async (_, path, layout, problem) => {
    await expect(read(await path(), layout)).rejects.toThrow(problem);
  });

  test('a file that is too large', async () => {
    const path = file('PK');
    truncateSync(path, 128 * 1024 ** 2 + 1);
    await expect(read(path)).rejects.toThrow('it is larger than 128 MiB');
  });
});
