import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { arrowRows } from '../../src/store/arrow-rows.ts';
import { samples } from '../cli/dryhold-process.ts';
import { tempFolder, writeFiles } from '../store/temp-store.ts';
import { readingsOf, takeIn } from './take-in.ts';

const arrow = readFileSync(join(samples, 'bundle-arrow', 'readings.arrow'));
const parquet = readFileSync(join(samples, 'bundle-parquet', 'readings.parquet'));

/** A copy with bytes changed. */
function changed(bytes: Buffer, change: (copy: Buffer) => void): Buffer {
  const copy = Buffer.from(bytes);
  change(copy);
  return copy;
}

/** Where the length of the batch of the sample stands: it is said three times, in the batch and in each of its columns. */
const rowCounts = (bytes: Buffer) => {
  const places: number[] = [];
  for (let at = 0; at + 8 <= bytes.length; at += 8) if (bytes.readBigInt64LE(at) === 287n) places.push(at);
  return places;
};

async function beside(name: string, content: Buffer) {
  const { sources, refused, jobs } = await takeIn({
    [`in/readings/${name}`]: content,
    'in/readings/good.csv': readingsOf('good'),
  });
  expect(jobs.good).toBe(2);
  const path = join('in', 'readings', name);
  return { counts: sources[path], refused: refused[path] };
}

describe('an Arrow file is not believed what it says of its own lengths', () => {
  test('a batch of a billion rows in some kilobytes', async () => {
    const places = rowCounts(arrow);
    expect(places.length).toBeGreaterThan(1);
    const bomb = changed(arrow, (copy) => {
      for (const at of places) copy.writeBigInt64LE(1_000_000_000n, at);
    });
    expect((await beside('a.arrow', bomb)).refused).toMatch(/^breaks off after row 0 \(it says 1000000000 rows/);
    const one = changed(arrow, (copy) => copy.writeBigInt64LE(1_000_000_000n, places[0]));
    expect((await beside('a.arrow', one)).refused).toMatch(/^breaks off after row 0/);
  });

  test.each<[string, (copy: Buffer) => void, RegExp]>([
    ['lists of billions of columns', (copy) => copy.fill(0xff, 120, 136), /no Arrow IPC file|breaks off/],
    ['a message that leads back', (copy) => copy.writeInt32LE(-8, 12), /says a length that cannot be/],
    ['a message longer than the file', (copy) => copy.writeInt32LE(2 ** 31 - 1, 12), /says a length that cannot be/],
    [
      'a footer longer than the file',
      (copy) => copy.writeInt32LE(2 ** 31 - 1, copy.length - 10),
      /its footer says a length/,
    ],
    [
      'a column of a type that there is not',
      (copy) => copy.writeUInt8(133, 12_551),
      /^no Arrow IPC file \(what it holds contradicts itself\), or only a part of one: export or copy it again$/,
    ],
  ])('%s', async (_, change, problem) => {
    expect((await beside('a.arrow', changed(arrow, change))).refused).toMatch(problem);
  });

  test('an end that is missing, wherever it breaks off', async () => {
    for (const share of [0.001, 0.1, 0.5, 0.99]) {
      const { refused } = await beside('a.arrow', arrow.subarray(0, Math.ceil(arrow.length * share)));
      expect(refused).toMatch(/^no Arrow IPC file \(|^the file is empty/);
    }
  });

  test('every byte of its descriptions, changed one by one, ends in rows or in words', async () => {
    const folder = tempFolder();
    const places = [...Array(400).keys(), ...Array.from({ length: 400 }, (_, at) => arrow.length - 1 - at)];
    let refused = 0;
    for (const at of places) {
      writeFiles(folder, { 'a.arrow': changed(arrow, (copy) => copy.writeUInt8(copy[at] ^ 0x80, at)) });
      let rows = 0;
      try {
        for await (const row of (await arrowRows(join(folder, 'a.arrow'))).rows) rows = row.line;
      } catch (error) {
        expect(error).toMatchObject({ code: 'file-unreadable' });
        refused += 1;
      }
      expect(rows).toBeLessThanOrEqual(287);
    }
    expect(refused).toBeGreaterThan(50);
  }, 60_000);
});

test('a column of an Arrow file may have no name', async () => {
  const path = join(tempFolder(), 'a.arrow');
  writeFileSync(
    path,
    changed(arrow, (copy) => copy.writeUInt16LE(0, 12_520)),
  );
  expect((await arrowRows(path)).columns).toEqual(['job_id', 'elapsed_s', '', 'vacuum_pa', 'phase_mark']);
});

describe('Parquet files that are damaged', () => {
  test.each<[string, (copy: Buffer) => void]>([
    ['a footer of another length', (copy) => copy.writeInt32LE(2 ** 31 - 1, copy.length - 8)],
    ['a footer of no length', (copy) => copy.writeInt32LE(0, copy.length - 8)],
    ['another beginning of the footer', (copy) => copy.fill(0xff, copy.length - 200, copy.length - 100)],
    ['no magic at the end', (copy) => copy.fill(0, copy.length - 4)],
  ])('%s', async (_, change) => {
    expect((await beside('a.parquet', changed(parquet, change))).refused).toMatch(
      /^no Parquet file|^breaks off after row/,
    );
  });

  // The engine calls that an IO error, as it does a full disk: it must not end the delivery.
  test('bytes missing in the midst', async () => {
    const shorter = Buffer.concat([parquet.subarray(0, 904), parquet.subarray(1904)]);
    expect((await beside('a.parquet', shorter)).refused).toMatch(/^breaks off after row 0|^no Parquet file/);
  });
  test('numbers wider than any', async () => {
    const wide = changed(parquet, (copy) => copy.writeUInt8(123, 142));
    const shorter = Buffer.concat([wide.subarray(0, 1744), wide.subarray(1747)]);
    expect((await beside('a.parquet', shorter)).refused).toMatch(/^breaks off after row 0 \(IO Error: The width/);
  });

  // One of its columns is called as none is, and cannot be unpacked: the engine leaves it aside, the reader of rows does not.
  test('a column that nobody needs, in a job that another file has as well', async () => {
    const odd = changed(parquet, (copy) => {
      const bytes = { 24: 47, 820: 111, 987: 114, 1410: 5, 1589: 64, 1918: 227, 1989: 93 };
      for (const [at, byte] of Object.entries(bytes)) copy.writeUInt8(byte, Number(at));
    });
    const alone = await takeIn({ 'in/readings/odd.parquet': odd });
    const [job = ''] = Object.keys(alone.jobs);
    const { jobs, refused } = await takeIn({
      'in/readings/odd.parquet': odd,
      'in/readings/other.csv': readingsOf(job),
      'in/readings/good.csv': readingsOf('good'),
    });
    expect(jobs).toEqual({ [job]: 2, good: 2 });
    expect(Object.keys(refused)).toEqual([join('in', 'readings', 'odd.parquet')]);
    expect(Object.values(refused)[0]).toMatch(/^breaks off after row 0/);
  });
});
