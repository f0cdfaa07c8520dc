import fc from 'fast-check';
import { expect, test } from 'vitest';
import { csvText } from '../../src/cli/csv-text.ts';

const cell = (value: string | number | boolean | null) => csvText(['a'], [{ a: value }]).slice('a\n'.length);

test('columns in their order, a line each, what a row lacks empty', () => {
  expect(csvText(['b', 'a'], [{ a: 1, b: 2 }, { a: 3 }, { b: null, a: null }])).toBe('b,a\n2,1\n,3\n,');
  expect(csvText(['a', 'b'], [])).toBe('a,b');
});

test.each([
  ['plain', 'plain'],
  ['one, two', '"one, two"'],
  ['say "so"', '"say ""so"""'],
  ['two\nlines', '"two\nlines"'],
  ['two\rlines', '"two\rlines"'],
  ['', ''],
  // A spreadsheet takes these for formulas: an apostrophe goes before them.
  ['=1+1', "'=1+1"],
  ['+1', "'+1"],
  ['-1', "'-1"],
  ['@x', "'@x"],
  ['=A1,B1', '"\'=A1,B1"'],
  ['\t=1', "'\t=1"],
  ["'=1", "''=1"],
  ['a=1', 'a=1'],
])('text %j is written %j', (value, written) => {
  expect(cell(value)).toBe(written);
});

test.each([
  [null, ''],
  [0, '0'],
  [-1.5, '-1.5'],
  [1e-7, '1e-7'],
  [true, 'true'],
  [false, 'false'],
])('%s is written %j, unmarked', (value, written) => {
  expect(cell(value)).toBe(written);
});

/** What a reader of RFC 4180 makes of one line with one cell. */
function unquoted(written: string): string {
  return written.startsWith('"') ? written.slice(1, -1).replaceAll('""', '"') : written;
}

test('every text comes back, but for one apostrophe; none begins as a formula', () => {
  fc.assert(
    fc.property(fc.string({ unit: fc.constantFrom(...'ab,"\'=+-@ \n\r\t\u0000;'.split('')) }), (text) => {
      const written = cell(text);
      const back = unquoted(written);
      expect([text, `'${text}`]).toContain(back);
      expect(back).not.toMatch(/^( *[=+\-@]|[\t\r\n\0])/);
      if (!written.startsWith('"')) expect(written).not.toMatch(/[",\n\r]/);
    }),
    { seed: 2, numRuns: 500 },
  );
});
