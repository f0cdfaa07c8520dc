import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { deflateRawSync, gzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { storedZip, type ZippedFile } from '../stored-zip.ts';
import { byFileName, mappedLog, readingsOf, takeIn } from './take-in.ts';

/** Takes an archive in beside a good file, through a map. */
const besideGood = (archive: Buffer, name = 'week.zip') =>
  takeIn({ [`in/${name}`]: archive, 'in/good.csv': mappedLog }, { map: byFileName });

const zeros = deflateRawSync(Buffer.alloc(300 * 2 ** 20), { level: 9 });
const log = (name: string): ZippedFile => ({ name, content: mappedLog });

describe('an archive that is refused leaves the rest of its folder as it is', () => {
  test.each<[string, Buffer, string]>([
    ['two files of one name', storedZip([log('a.csv'), log('a.csv')]), 'it holds two files called a.csv; pack it anew'],
    ['a path that climbs out', storedZip([log('a.csv'), log('../../evil.csv')]), 'invalid relative path'],
    ['a path from the top', storedZip([log('/evil.csv')]), 'absolute path'],
    ['a path of another system', storedZip([log('..\\evil.csv')]), 'invalid'],
    [
      'a file behind a password',
      storedZip([{ ...log('a.csv'), flags: 1, unpackedBytes: mappedLog.length - 12 }]),
      'encrypted',
    ],
    ['an end that is missing', storedZip([log('a.csv')]).subarray(0, -30), 'central directory'],
    ['more than the disk should hold', manyTimes(9), 'it unpacks to more than 32 GiB'],
  ])('%s', async (_, archive, problem) => {
    const { refused, jobs } = await besideGood(archive);
    expect(refused[join('in', 'week.zip')]).toContain(problem);
    expect(jobs).toEqual({ good: 2 });
  });
});

/** An archive whose directory says that each of so many files has nearly 4 GiB. */
function manyTimes(count: number): Buffer {
  return storedZip(
    Array.from({ length: count }, (_, file) => ({
      name: `${file}.csv`,
      content: zeros.subarray(0, 1000),
      method: 8,
      unpackedBytes: 2 ** 32 - 2,
    })),
  );
}

test('what packs too well to be a log is given up soon: in a .gz and in an archive', async () => {
  const bomb = { name: 'a.csv', content: zeros, method: 8, unpackedBytes: 300 * 2 ** 20 };
  const { refused, jobs } = await takeIn(
    {
      'in/a.csv.gz': gzipSync(Buffer.alloc(300 * 2 ** 20)),
      'in/week.zip': storedZip([bomb]),
      'in/good.csv': mappedLog,
    },
    { map: byFileName },
  );
  const detail = 'cannot be unpacked (it unpacks to more than 200 times its size)';
  expect(refused).toEqual({ [join('in', 'a.csv.gz')]: detail, [join('in', 'week.zip')]: detail });
  expect(jobs).toEqual({ good: 2 });
}, 60_000);

test('what is packed once more within an archive is named, and the rest of it comes in', async () => {
  const { refused, jobs } = await besideGood(
    storedZip([
      { name: 'a.csv.gz', content: gzipSync(mappedLog) },
      { name: 'inner.zip', content: storedZip([log('a.csv')]) },
      log('b.csv'),
    ]),
  );
  expect(Object.keys(refused)).toEqual(['a.csv.gz', 'inner.zip'].map((name) => `${join('in', 'week.zip')}/${name}`));
  for (const detail of Object.values(refused))
    expect(detail).toMatch(/^it is packed once more within the archive; unpack/);
  expect(jobs).toEqual({ b: 2, good: 2 });
});

test('the same of an archive that is a bundle', async () => {
  const files = {
    'in.zip': storedZip([
      { name: 'readings/1.csv.gz', content: gzipSync(readingsOf('A')) },
      { name: 'readings/2.csv', content: readingsOf('B') },
    ]),
  };
  const { refused, jobs } = await takeIn(files, { paths: ['in.zip'] });
  expect(refused).toEqual({ 'in.zip/readings/1.csv.gz': expect.stringContaining('packed once more') as string });
  expect(jobs).toEqual({ B: 2 });
});

test('of several bundles one that cannot be unpacked is a refused file; alone it is an error', async () => {
  const twice = storedZip([
    { name: 'readings.csv', content: readingsOf('A') },
    { name: 'readings.csv', content: readingsOf('B') },
  ]);
  const files = { 'twice.zip': twice, 'in/readings.csv': readingsOf('C') };
  const { refused, jobs } = await takeIn(files, { paths: ['twice.zip', 'in'] });
  expect(refused['twice.zip']).toContain('it holds two files called readings.csv');
  expect(jobs).toEqual({ C: 2 });
  await expect(takeIn(files, { paths: ['twice.zip'] })).rejects.toMatchObject({ code: 'file-unreadable' });
});

test('nothing of an archive lands outside of the store', async () => {
  const before = existsSync(join(process.cwd(), 'evil.csv'));
  await besideGood(storedZip([log('../evil.csv')]));
  expect(existsSync(join(process.cwd(), 'evil.csv'))).toBe(before);
});
