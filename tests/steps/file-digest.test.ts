import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { fileDigest } from '../../src/steps/file-digest.ts';
import { tempFolder } from '../store/temp-store.ts';

const blockBytes = 1024 ** 2;

/** Lines of 64 bytes up to just before a place, then a text. */
function textAt(place: number, text: Buffer | string): Buffer {
  const before = Buffer.alloc(place, `${'a'.repeat(63)}\n`);
  return Buffer.concat([before, Buffer.from(text), Buffer.from('\nend\n')]);
}

async function isOdd(bytes: Buffer): Promise<boolean> {
  const path = join(tempFolder(), 'log.csv');
  writeFileSync(path, bytes);
  return (await fileDigest(path)).oddText;
}

test.each(['ä', '→', '🙂'])('%s is no odd text, wherever the blocks that are read part it', async (character) => {
  for (let before = 0; before <= 4; before += 1)
    expect(await isOdd(textAt(blockBytes - before, character))).toBe(false);
});

test.each([
  ['a byte of another encoding', Buffer.of(0xe4)],
  ['half a character', Buffer.from('🙂').subarray(0, 3)],
  ['the rest of a character', Buffer.from('→').subarray(1)],
])('%s is odd text, also where blocks part it', async (_, bytes) => {
  for (const place of [0, 700, blockBytes - 2, blockBytes - 1, blockBytes, 2 * blockBytes])
    expect(await isOdd(textAt(place, bytes))).toBe(true);
});

test('a file that ends within a character is odd text', async () => {
  expect(await isOdd(Buffer.from('a,b\n1,ä').subarray(0, -1))).toBe(true);
});
