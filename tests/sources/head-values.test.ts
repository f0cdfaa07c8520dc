import { join } from 'node:path';
import { writeXlsx } from 'hucre/xlsx';
import { describe, expect, test } from 'vitest';
import { headValues } from '../../src/sources/head-values.ts';
import type { FileKind, Layout } from '../../src/sources/source-file.ts';
import type { HeadValue } from '../../src/sources/source-map.ts';
import { tempFolder, writeFiles } from '../store/temp-store.ts';

const at = (value: Partial<HeadValue>): HeadValue => ({ cell: 1, ...value });

async function found(
  kind: FileKind['id'],
  content: string | Buffer,
  wanted: Record<string, Partial<HeadValue>>,
  layout: Layout = {},
) {
  const path = join(writeFiles(tempFolder(), { a: content }), 'a');
  const heads = Object.fromEntries(Object.entries(wanted).map(([name, value]) => [name, at(value)]));
  return Object.fromEntries(await headValues(kind, path, layout, heads));
}

const sheet = `\uFEFFA sheet of ours
Ticket:,V-7,,"Filling","R-32"
"Who: pip-lathe",,Site = ridge-top
Height (m),,1450,m
Lone,
Note,5" pipe,"two, with comma"
Ticket,later
`;

describe('lines of text', () => {
  test.each<[string, Partial<HeadValue>, unknown]>([
    ['a label with its colon, the next cell', { after: 'Ticket:' }, 'V-7'],
    ['a label without it; the first line counts', { after: 'Ticket' }, 'V-7'],
    ['two labels in a line', { after: 'Filling' }, 'R-32'],
    ['the rest of the label’s own cell', { after: 'Who' }, 'pip-lathe'],
    ['with its colon', { after: 'Who:' }, 'pip-lathe'],
    ['behind an equals sign', { after: 'Site' }, 'ridge-top'],
    ['the next cell that holds anything', { after: 'Height (m)' }, '1450'],
    ['line and cell', { line: 4, cell: 4 }, 'm'],
    ['a cell that was quoted', { line: 6, cell: 3 }, 'two, with comma'],
    ['the first cell of the first line', { line: 1 }, 'A sheet of ours'],
    ['a label with nothing behind it', { after: 'Lone' }, undefined],
    ['a label that is not there', { after: 'Tick' }, undefined],
    ['a cell that is empty', { line: 2, cell: 3 }, undefined],
    ['a line past the end', { line: 90 }, undefined],
  ])('%s', async (_, value, text) => {
    expect((await found('csv', sheet, { it: value })).it).toBe(text);
  });

  test('cells are parted and enclosed as the layout says', async () => {
    const content = Buffer.from('Höhe|\'1|450\'|m\nWer|"pip"\n', 'latin1');
    expect(
      await found(
        'csv',
        content,
        { height: { after: 'Höhe' }, who: { after: 'Wer' } },
        { delimiter: '|', quote: "'", encoding: 'windows-1252' },
      ),
    ).toEqual({ height: '1|450', who: '"pip"' });
  });

  test('a quote that is never closed is itself', async () => {
    expect(await found('csv', 'Note,"open\nTicket,V-7\n', { ticket: { after: 'Ticket' } })).toEqual({ ticket: 'V-7' });
  });

  test('two hundred lines are looked through', async () => {
    const content = `${'x\n'.repeat(199)}Ticket,V-7\nWho,odd-marble\n`;
    expect(await found('csv', content, { ticket: { after: 'Ticket' }, who: { after: 'Who' } })).toEqual({
      ticket: 'V-7',
    });
  });
});

test('sheets of a workbook, each with its own labels', async () => {
  const content = await writeXlsx({
    sheets: [
      {
        name: 'A',
        rows: [
          ['Ticket', null, 'V-7'],
          ['Height', 1450],
        ],
      },
      { name: 'B', rows: [[], ['Ticket', 'V-8', new Date(Date.UTC(2026, 2, 6))]] },
    ],
  });
  expect(
    await found('xlsx', Buffer.from(content), {
      first: { after: 'Ticket' },
      height: { line: 2, cell: 2 },
      second: { after: 'Ticket', sheet: 'B' },
      day: { line: 2, cell: 3, sheet: 2 },
      none: { after: 'Who', sheet: 2 },
    }),
  ).toEqual({ first: 'V-7', height: 1450, second: 'V-8', day: '2026-03-06 00:00:00' });
});

test('paths of a document, and of the first lines of many', async () => {
  const wanted = { by: { path: 'made.by' }, lid: { path: 'made.lids.1' }, none: { path: 'made.none' } };
  const document = { made: { by: 'a', lids: [1, 2] }, rows: [1] };
  expect(await found('json', JSON.stringify(document), wanted)).toEqual({ by: 'a', lid: 2 });
  const lines = `no JSON\n{"rows":[]}\n${JSON.stringify(document)}\n{"made":{"by":"b"}}\n`;
  expect(await found('ndjson', lines, wanted)).toEqual({ by: 'a', lid: 2 });
});

test('a label in a file that nests, and a path in one that does not, are told', async () => {
  await expect(found('json', '{"Ticket":"V-7"}', { ticket: { after: 'Ticket' } })).rejects.toThrow(
    'head "ticket" needs a path, in a json file',
  );
  await expect(found('csv', sheet, { ticket: { path: 'Ticket' } })).rejects.toThrow(
    'head "ticket" has a path, in a csv file',
  );
});

test('files of columns have no head; where nothing is wanted, nothing is read', async () => {
  await expect(found('parquet', '', { it: { line: 1 } })).rejects.toThrow('has no lines before its table');
  expect(await found('parquet', '', {})).toEqual({});
});
