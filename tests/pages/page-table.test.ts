import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type PageTable, pageTable } from '../../src/pages/page-table.ts';

const bytesEach = { u8: 1, u16: 2, u32: 4, f32: 4 } as const;

/** Reads a table back byte by byte, by what the type says of it. */
function rowsOf(table: PageTable): Record<string, string | number | null>[] {
  const { count, columns } = JSON.parse(JSON.stringify(table)) as PageTable;
  const read = columns.map(({ name, kind, bytes, words }) => {
    const view = new DataView(Uint8Array.from(Buffer.from(bytes, 'base64')).buffer);
    expect(view.byteLength).toBe(count * bytesEach[kind]);
    const number = (at: number): number => {
      if (kind === 'f32') return view.getFloat32(4 * at, true);
      if (kind === 'u32') return view.getUint32(4 * at, true);
      return kind === 'u16' ? view.getUint16(2 * at, true) : view.getUint8(at);
    };
    return [
      name,
      (at: number) => (words !== undefined ? words[number(at)] : Number.isNaN(number(at)) ? null : number(at)),
    ] as const;
  });
  return Array.from({ length: count }, (_, at) => Object.fromEntries(read.map(([name, of]) => [name, of(at) ?? null])));
}

const row = fc.record({
  word: fc.string({ unit: 'grapheme' }),
  small: fc.nat(255),
  middling: fc.nat(65_535),
  large: fc.nat(2 ** 32 - 1),
  measured: fc.oneof(fc.float({ noNaN: true, noDefaultInfinity: true }), fc.constant(null)),
});

test('what is packed is what is read', () => {
  fc.assert(
    fc.property(fc.array(row), (rows) => {
      const noZeros = rows.map((one) => ({ ...one, measured: one.measured === 0 ? 0 : one.measured }));
      expect(rowsOf(pageTable(noZeros))).toEqual(noZeros);
    }),
  );
});

test('a number of many places keeps seven of them, and whole ones take as little room as they need', () => {
  const [{ share }] = rowsOf(pageTable([{ share: 1 / 3 }])) as [{ share: number }];
  expect(share).toBeCloseTo(1 / 3, 7);
  const kindOf = (...cells: (number | null)[]) => pageTable(cells.map((cell) => ({ cell }))).columns[0]?.kind;
  expect([kindOf(0, 255), kindOf(256), kindOf(65_535), kindOf(65_536), kindOf(2 ** 32 - 1)]).toEqual([
    'u8',
    'u16',
    'u16',
    'u32',
    'u32',
  ]);
  expect([kindOf(2 ** 32), kindOf(-1), kindOf(0.5), kindOf(1, null)]).toEqual(['f32', 'f32', 'f32', 'f32']);
});

test('words stand once, and any may be a word', () => {
  const words = ['', 'a', 'A', '__proto__', 'constructor', '</script>', '\u2028', 'a'];
  const { columns } = pageTable(words.map((word) => ({ word })));
  expect(columns[0]?.words).toEqual(words.slice(0, -1));
  expect(rowsOf(pageTable(words.map((word) => ({ word }))))).toEqual(words.map((word) => ({ word })));
  const many = Array.from({ length: 70_000 }, (_, at) => ({ word: `w${at}` }));
  expect(rowsOf(pageTable(many))).toEqual(many);
});

test('no rows are a table of none', () => {
  expect(pageTable([])).toEqual({ count: 0, columns: [] });
});
