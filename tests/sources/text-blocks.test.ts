import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { TextEncoding } from '../../src/sources/source-file.ts';
import { firstBytes, firstLines, headBytes, markedEncoding, textBlocks } from '../../src/sources/text-blocks.ts';
import { tempFolder, writeFiles } from '../store/temp-store.ts';

const file = (content: Buffer | string) => join(writeFiles(tempFolder(), { 'a.txt': content }), 'a.txt');
const swapped = (text: string) => Buffer.from(text, 'utf16le').swap16();

async function decoded(content: Buffer, encoding?: TextEncoding): Promise<string> {
  const blocks: Buffer[] = [];
  for await (const block of textBlocks(file(content), encoding)) blocks.push(block);
  return Buffer.concat(blocks).toString('utf8');
}

describe('encodings', () => {
  test.each<[string, Buffer, TextEncoding | undefined, string]>([
    ['UTF-8', Buffer.from('18 °C, µm'), undefined, '18 °C, µm'],
    ['UTF-16, little end first, marked', Buffer.from('\uFEFF18 °C', 'utf16le'), undefined, '18 °C'],
    ['UTF-16, big end first, marked', swapped('\uFEFF18 °C'), undefined, '18 °C'],
    ['UTF-16 without a mark, named', Buffer.from('18 °C', 'utf16le'), 'utf-16le', '18 °C'],
    ['the same, big end first', swapped('18 °C'), 'utf-16be', '18 °C'],
    ['windows-1252', Buffer.from([0x31, 0xb0, 0x43, 0x20, 0xb5, 0x6d, 0x20, 0x80]), 'windows-1252', '1°C µm €'],
    ['bytes that are no UTF-16 pair', Buffer.from([0x31, 0x00, 0x32]), 'utf-16le', '1\uFFFD'],
    ['an empty file', Buffer.alloc(0), 'windows-1252', ''],
  ])('%s', async (_, content, encoding, text) => {
    expect(await decoded(content, encoding)).toBe(text);
  });

  test('characters across the border of two blocks stay whole', async () => {
    const text = `x${'µ'.repeat(1 << 20)}`;
    expect((await decoded(Buffer.from(`\uFEFF${text}`, 'utf16le'))) === text).toBe(true);
  });

  test('marks', () => {
    const of = (...bytes: number[]) => markedEncoding(Buffer.from(bytes));
    expect([of(0xff, 0xfe), of(0xfe, 0xff), of(0xef, 0xbb, 0xbf), of(0xef, 0xbb), of()]).toEqual([
      'utf-16le',
      'utf-16be',
      'utf-8',
      undefined,
      undefined,
    ]);
  });
});

test('first lines, whatever ends them', () => {
  expect(firstLines(file('\uFEFFa\r\nb\rc\n'))).toEqual(['a', 'b', 'c', '']);
  expect(firstLines(file(swapped('a\nb')), 'utf-16be')).toEqual(['a', 'b']);
});

test('first bytes end at 64 KiB; a file that is not there cannot be read', () => {
  expect(firstBytes(file('x'.repeat(headBytes + 1))).length).toBe(headBytes);
  expect(() => firstBytes(join(tempFolder(), 'none'))).toThrow('cannot be read');
});
