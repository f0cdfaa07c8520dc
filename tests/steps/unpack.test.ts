import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { isPacked, unpacked } from '../../src/steps/unpack.ts';
import { storedZip } from '../stored-zip.ts';
import { tempFolder, writeFiles } from '../store/temp-store.ts';

/** The files of something packed, by name. */
async function filesOf(name: string, content: Buffer, wanted?: (name: string) => boolean) {
  const folder = writeFiles(tempFolder(), { [name]: content });
  const to = join(folder, 'out');
  const found: Record<string, string> = {};
  let before: string | undefined;
  try {
    for await (const file of unpacked(join(folder, name), to, wanted)) {
      if (before !== undefined && before !== file.path) expect(existsSync(before)).toBe(false);
      found[file.name] = readFileSync(file.path, 'utf8');
      before = file.path;
    }
  } finally {
    expect(existsSync(to)).toBe(false);
    expect(existsSync(join(folder, '..', 'evil.csv'))).toBe(false);
  }
  return found;
}

test('what counts as packed', () => {
  expect(['a.csv.gz', 'a.GZ', 'b.zip', 'c.csv', 'd'].map(isPacked)).toEqual([true, true, true, false, false]);
});

test('one file, and an archive of several, each gone once the next is asked for', async () => {
  expect(await filesOf('a.csv.gz', gzipSync('a,b\n'))).toEqual({ 'a.csv': 'a,b\n' });
  expect(await filesOf('A.CSV.GZ', gzipSync(''))).toEqual({ 'A.CSV': '' });
  const files = [
    { name: 'mon/', content: '' },
    { name: 'mon/a.csv', content: 'one' },
    { name: 'tue/a.csv', content: 'two' },
    { name: 'notes.md', content: 'no log' },
  ];
  expect(await filesOf('week.zip', storedZip(files))).toEqual({
    'mon/a.csv': 'one',
    'tue/a.csv': 'two',
    'notes.md': 'no log',
  });
  expect(await filesOf('week.ZIP', storedZip(files), (name) => name.endsWith('.csv'))).toEqual({
    'mon/a.csv': 'one',
    'tue/a.csv': 'two',
  });
  expect(await filesOf('none.zip', storedZip([]))).toEqual({});
});

const packed = gzipSync('t,v\n'.repeat(1000));
const one = storedZip([{ name: 'a.csv', content: 'a,b\n' }]);

describe('what cannot be unpacked is told, and leaves nothing behind', () => {
  test.each<[string, string, Buffer, string]>([
    ['a file that breaks off', 'a.csv.gz', packed.subarray(0, packed.length - 12), 'unexpected end of file'],
    ['a file that is not packed', 'a.csv.gz', Buffer.from('t,v\n'), 'incorrect header check'],
    ['an empty file', 'a.csv.gz', Buffer.alloc(0), 'unexpected end of file'],
    [
      'a file that was changed',
      'a.csv.gz',
      Buffer.concat([packed.subarray(0, -8), Buffer.alloc(8)]),
      'incorrect data check',
    ],
    ['an archive that is none', 'a.zip', Buffer.from('t,v\n'), 'central directory'],
    ['an archive that breaks off', 'a.zip', one.subarray(0, one.length - 30), 'central directory'],
    [
      'a path that leads out',
      'a.zip',
      storedZip([{ name: '../evil.csv', content: 'x' }]),
      'invalid relative path: ../evil.csv',
    ],
    [
      'a path within that leads out',
      'a.zip',
      storedZip([{ name: 'a/../../evil.csv', content: 'x' }]),
      'invalid relative path',
    ],
    ['a path from the top', 'a.zip', storedZip([{ name: '/evil.csv', content: 'x' }]), 'absolute path: /evil.csv'],
    [
      'a file behind a password',
      'a.zip',
      storedZip([{ name: 'a.csv', content: 'x'.repeat(13), unpackedBytes: 1, flags: 1 }]),
      'encrypted',
    ],
    [
      'a way to pack that is unknown',
      'a.zip',
      storedZip([{ name: 'a.csv', content: 'x', method: 99 }]),
      'unsupported compression method: 99',
    ],
    ['a size that is not so', 'a.zip', storedZip([{ name: 'a.csv', content: 'x', unpackedBytes: 9 }]), 'size mismatch'],
  ])('%s', async (_, name, content, problem) => {
    const error: unknown = await filesOf(name, content).catch((caught: unknown) => caught);
    expect(error).toMatchObject({ code: 'file-unreadable', exitStatus: 3 });
    expect((error as Error).message).toContain('cannot be unpacked (');
    expect((error as Error).message).toContain(problem);
  });
});
