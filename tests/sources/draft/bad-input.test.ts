import fc from 'fast-check';
import { expect, test } from 'vitest';
import { draftMap } from '../../../src/sources/draft/draft-map.ts';
import { fileContent } from '../../../src/sources/draft/file-content.ts';
import { closedJson } from '../../../src/sources/draft/json-sample.ts';
import { jsonTables, ndjsonTables } from '../../../src/sources/draft/json-tables.ts';
import { textTables } from '../../../src/sources/draft/text-tables.ts';
import { columnsOf, draftOf, lines, unsureOf } from './draft-of.ts';

const problemOf = (content: string | Buffer, name = 'a.csv') => {
  const read = fileContent(name, Buffer.from(content as Buffer), true);
  return 'problem' in read ? read.problem : undefined;
};

test('what is no text, or no table that can be taken in, is told with what to do', () => {
  expect(problemOf('')).toBe('the file is empty');
  expect(problemOf('\n \r\n')).toBe('the file holds nothing but blank lines');
  expect(problemOf(Buffer.from([1, 2, 3, 0, 0, 5, 200, 0, 7]))).toContain('no text; export the log');
  expect(problemOf(Buffer.from([0xd0, 0xcf, 0x11, 0xe0, 1]), 'a.xls')).toContain('save it as .xlsx');
  expect(problemOf('%PDF-1.7')).toContain('PDF');
  expect(problemOf('<?xml version="1.0"?><a/>')).toContain('XML');
});

test('prose holds no table', () => {
  const read = fileContent('a.txt', Buffer.from('Dear all,\nthis is a letter.\nBye\n'), true);
  expect('text' in read && textTables('a.txt', read, true, [])).toBeUndefined();
});

test('one column without any time is drafted with no time, and said to be of no use so', () => {
  const draft = draftOf('a.csv', lines('Vacuum (micron)', '900', '800', '700'));
  expect(columnsOf(draft)).toMatchObject({ elapsed_s: { constant: 0 }, vacuum_pa: { column: 'Vacuum' } });
  expect(unsureOf(draft)).toContain('rows.0.columns.elapsed_s');
});

test('ragged rows keep the table together', () => {
  const draft = draftOf('a.csv', lines('t (s),Vacuum (micron)', '0,900', '5,800,,', '10', '15,700', '20,600'));
  expect(columnsOf(draft)).toMatchObject({ elapsed_s: { column: 't (s)' }, vacuum_pa: { column: 'Vacuum' } });
});

test('a quote that is never closed is no cell', () => {
  const draft = draftOf('a.csv', lines('t (s),Line "size,Vacuum (micron)', '0,3/8",900', '5,"3/8,800', '10,3/8",700'));
  expect(columnsOf(draft)).toMatchObject({ elapsed_s: { column: 't (s)' }, vacuum_pa: { column: 'Vacuum' } });
});

test('the beginning of a JSON document is closed after its last whole element', () => {
  const whole = JSON.stringify({ job: { id: 'a]"}\\' }, rows: [{ a: 1 }, { a: [2, 3] }, { a: 4 }] });
  for (let end = whole.indexOf('},{') + 1; end < whole.length; end += 1) {
    const closed = JSON.parse(closedJson(whole.slice(0, end)) ?? 'null') as { rows: unknown[] };
    expect(closed.rows[0]).toEqual({ a: 1 });
  }
  expect(closedJson('no json')).toBeUndefined();
  expect(closedJson('{"a":]')).toBeUndefined();
});

test('whatever bytes come, there is a draft, no table, or a problem', () => {
  const pieces = fc.constantFrom(
    ',',
    ';',
    '\t',
    '"',
    "'",
    '\n',
    '\r\n',
    '{',
    '}',
    '[',
    ']',
    ':',
    '10:00:00',
    '2026-03-05',
    '1,5',
    '-',
    'Vacuum (micron)',
    'Time',
    'OL',
    ' ',
    '\0',
    'é',
    '^',
    '0',
  );
  fc.assert(
    fc.property(fc.array(pieces, { maxLength: 60 }), fc.constantFrom('a.csv', 'a.json', 'a.ndjson'), (parts, name) => {
      const read = fileContent(name, Buffer.from(parts.join('')), true);
      if (!('text' in read)) return 'problem' in read;
      let found: ReturnType<typeof jsonTables>;
      try {
        if (read.kind === 'json') found = jsonTables(name, read);
        else found = read.kind === 'ndjson' ? ndjsonTables(name, read) : textTables(name, read, true, []);
      } catch (error) {
        return error instanceof SyntaxError;
      }
      if (found === undefined || 'problem' in found || found.tables.every(({ columns }) => columns.length === 0))
        return true;
      return draftMap(name, found, 'UTC').map.rows.length > 0;
    }),
    { numRuns: 500 },
  );
});
