import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { csv } from '../../src/sources/csv.ts';
import type { Layout } from '../../src/sources/source-file.ts';
import { tempFolder, writeFiles } from '../store/temp-store.ts';

/** The columns of a text, its units where there are, and each row with its line. */
async function read(text: string | Buffer, layout: Layout) {
  const {
    columns,
    units,
    rows: source,
  } = await csv.rows(join(writeFiles(tempFolder(), { 'a.csv': text }), 'a.csv'), layout);
  const rows = [];
  for await (const { line, cells, problem } of source) rows.push([line, problem ?? cells?.join('|')]);
  return { columns: columns.join('|'), ...(units === undefined ? {} : { units: units.join('|') }), rows };
}

const drawers = `Three drawers, "week
first: points
(by the pump)
s,deep
---,---
0,5
"second: notes",x

second: bottles
no,kg
1,2
`;

/** What a layout finds in the drawers; lines are counted from the top of the file whatever comes before. */
const layouts: [string, Layout, Awaited<ReturnType<typeof read>>][] = [
  [
    'after a line, lines to skip, lines after the header, to a line',
    { afterLine: 'first:', skipLines: 1, skipAfterHeader: 1, untilLine: 'second:' },
    {
      columns: 's|deep',
      rows: [
        [6, '0|5'],
        [7, 'second: notes|x'],
      ],
    },
  ],
  [
    'a header that begins so',
    { headerBegins: 's,', untilLine: 'second:' },
    {
      columns: 's|deep',
      rows: [
        [5, '---|---'],
        [6, '0|5'],
        [7, 'second: notes|x'],
      ],
    },
  ],
  ['a row of units', { headerBegins: 'no,', unitRow: true }, { columns: 'no|kg', units: '1|2', rows: [] }],
  [
    'after a line, the header that begins so',
    { afterLine: 'second: b', headerBegins: 'no' },
    { columns: 'no|kg', rows: [[11, '1|2']] },
  ],
  [
    'after a line, without a header',
    { afterLine: 'second: b', header: false },
    {
      columns: '1|2',
      rows: [
        [10, 'no|kg'],
        [11, '1|2'],
      ],
    },
  ],
  [
    'lines to skip before a header that begins so',
    { skipLines: 4, headerBegins: 'no' },
    { columns: 'no|kg', rows: [[11, '1|2']] },
  ],
];

describe.each([
  ['line feeds', '\n'],
  ['carriage returns and line feeds', '\r\n'],
  ['carriage returns alone', '\r'],
])('%s end lines', (_, end) => {
  test.each(layouts)('%s', async (__, layout, found) => {
    expect(await read(drawers.replaceAll('\n', end), layout)).toEqual(found);
  });
});

test('a table at the end of a file that does not end its last line', async () => {
  expect(await read('x\na,b', { skipLines: 1 })).toEqual({ columns: 'a|b', rows: [] });
  expect(await read('x\na,b', { headerBegins: 'a' })).toEqual({ columns: 'a|b', rows: [] });
});

test('a byte order mark is no part of the first line', async () => {
  expect(await read('\uFEFFtop\na\n1\n', { afterLine: 'top' })).toEqual({ columns: 'a', rows: [[3, '1']] });
  expect(await read('\uFEFFa\n1\n', { headerBegins: 'a' })).toEqual({ columns: 'a', rows: [[2, '1']] });
});

test('what is said to come first, and does not, is told', async () => {
  await expect(read('a\n1\n', { afterLine: 'top' })).rejects.toThrow('no line begins with "top"');
  await expect(read('top\na\n1\n', { afterLine: 'top', headerBegins: 'b' })).rejects.toThrow('no line begins with "b"');
  await expect(read('a\n1\n', { skipLines: 3 })).rejects.toThrow('no line where the map looks for a table');
  await expect(read('top\nend\n', { afterLine: 'top', untilLine: 'end' })).rejects.toThrow(
    'no line where the map looks',
  );
  await expect(read('\n\n', {})).rejects.toThrow('the file is empty');
});

test('where nothing encloses cells, quotes are themselves', async () => {
  expect(await read('a,b\n5" pipe,"x\n"y",z\n', { quote: '' })).toEqual({
    columns: 'a|b',
    rows: [
      [2, '5" pipe|"x'],
      [3, '"y"|z'],
    ],
  });
});

test('a quote of the map’s own is doubled within cells, and the usual one is itself', async () => {
  expect(await read(`'a'|b\n'it''s | so'|"x"\n'two\nlines'|y\nz|1\n`, { quote: "'", delimiter: '|' })).toEqual({
    columns: 'a|b',
    rows: [
      [2, `it's | so|"x"`],
      [3, 'two\nlines|y'],
      [5, 'z|1'],
    ],
  });
});

test('rows of several kinds may have any width', async () => {
  expect(await read('j;A\nv;A;1;2\n\np\n', { header: false, ragged: true, delimiter: ';' })).toMatchObject({
    rows: [
      [1, 'j|A'],
      [2, 'v|A|1|2'],
      [4, 'p'],
    ],
  });
  expect(await read('a;b\n1\n1;2;3\n', { ragged: true, delimiter: ';' })).toEqual({
    columns: 'a|b',
    rows: [
      [2, '1'],
      [3, '1|2|3'],
    ],
  });
});

test.each<[string, Buffer, Layout]>([
  ['UTF-16 with its mark', Buffer.from('\uFEFFtop\r\n°C\tµm\r\n1\t2\r\n', 'utf16le'), {}],
  [
    'UTF-16, named, big end first',
    Buffer.from('top\r\n°C\tµm\r\n1\t2\r\n', 'utf16le').swap16(),
    { encoding: 'utf-16be' },
  ],
  ['windows-1252', Buffer.from('top\r\n°C\tµm\r\n1\t2\r\n', 'latin1'), { encoding: 'windows-1252' }],
])('%s', async (_, content, layout) => {
  expect(await read(content, { ...layout, delimiter: '\t', skipLines: 1 })).toEqual({
    columns: '°C|µm',
    rows: [[3, '1|2']],
  });
});
