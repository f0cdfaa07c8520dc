import { createHash } from 'node:crypto';
import {
  appendFileSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { gzipSync } from 'node:zlib';
import { describe, expect, test, vi } from 'vitest';
import { Random } from '../../src/numerics/random.ts';
import { fileDigest, whileUnchanged } from '../../src/steps/file-digest.ts';
import { ingest, type IngestOptions } from '../../src/steps/ingest.ts';
import { exported, inStore, tempFolder, unbalanced } from '../store/temp-store.ts';
import { storedZip } from '../stored-zip.ts';
import { writeFiles } from '../write-files.ts';

vi.setConfig({ testTimeout: 120_000 });

const refusal = 'it was changed while it was read; take it in again once it is whole';

/** What may happen to a file while it is read. */
const changes: Readonly<Record<string, (path: string, content: string) => void>> = {
  'it grows': (path) => appendFileSync(path, 'J,999999,1\n'),
  'it is rewritten in place, as long as before': (path, content) => writeFileSync(path, otherPressures(content)),
  'it is rewritten in place, as long and as old as before': (path, content) => {
    const { atime, mtime } = statSync(path);
    writeFileSync(path, otherPressures(content));
    utimesSync(path, atime, mtime);
  },
  'the same is copied over it once more': (path, content) => writeFileSync(path, content),
  'another takes its name': (path, content) => {
    writeFileSync(`${path}.new`, otherPressures(content));
    renameSync(`${path}.new`, path);
  },
  'it is emptied': (path) => truncateSync(path, 0),
  'it vanishes': (path) => rmSync(path),
};

/** A file whose times were long ago; what is done to it now shows in them. */
function settledFile(content: string): string {
  const path = join(tempFolder(), 'readings.csv');
  writeFileSync(path, content);
  return path;
}

describe('between the digest of a file and the reading of its rows', () => {
  test.each(Object.entries(changes))('%s: it is refused, whatever was read', async (_, change) => {
    const content = readingsText(500);
    const path = settledFile(content);
    const digest = await fileDigest(path);
    // Long enough for the clock of the file system to have gone on.
    await delay(20);
    const read = whileUnchanged(path, digest, () => {
      change(path, content);
      return Promise.resolve('read');
    });
    await expect(read).rejects.toMatchObject({ code: 'file-unreadable', parameters: { path, problem: refusal } });
  });

  test('nothing happens: it is taken', async () => {
    const path = settledFile(readingsText(500));
    const digest = await fileDigest(path);
    expect(await whileUnchanged(path, digest, () => Promise.resolve('read'))).toBe('read');
    expect([digest.bytes, digest.sha256]).toEqual([statSync(path).size, sha256Of(readFileSync(path, 'utf8'))]);
  });

  test('a change within one tick of the clock shows by its bytes', async () => {
    const path = settledFile(readingsText(500));
    const digest = await fileDigest(path);
    const other = { ...digest, sha256: sha256Of('what it held a moment ago') };
    await expect(whileUnchanged(path, other, () => Promise.resolve())).rejects.toMatchObject({
      parameters: { problem: refusal },
    });
  });
});

const map = {
  name: 'changing',
  rows: [
    {
      table: 'readings',
      columns: { job_id: { column: 'job_id' }, elapsed_s: { column: 'elapsed_s' }, vacuum_pa: { column: 'vacuum_pa' } },
    },
  ],
};

/** So much takes the readers some tenths of a second. */
const manyRows = 150_000;

describe('what is booked is of one state of the file', () => {
  const random = new Random(7);
  test.each(['bundle', 'mapped', 'mapped row by row'])('%s', async (way) => {
    const header = way === 'mapped row by row' ? '"job_id",elapsed_s,vacuum_pa' : 'job_id,elapsed_s,vacuum_pa';
    let refusals = 0;
    for (const [what, change] of Object.entries(changes)) {
      const folder = tempFolder();
      const content = readingsText(manyRows, header) + (way === 'mapped row by row' ? 'J,soon,1\n' : '');
      const path = join(folder, 'readings.csv');
      writeFiles(folder, { 'readings.csv': content, 'map.json': JSON.stringify(map) });
      const states = new Map([[sha256Of(content), rowsOf(content)]]);
      await inStore(join(folder, 'store'), async (store) => {
        const options: IngestOptions = way === 'bundle' ? {} : { map: join(folder, 'map.json') };
        const ingesting = ingest(store, [path], options);
        await delay(random.uniform() * 800);
        change(path, content);
        const now = statSync(path, { throwIfNoEntry: false }) && readFileSync(path, 'utf8');
        if (now !== undefined) states.set(sha256Of(now), rowsOf(now));
        const { sources, refusedFiles } = await ingesting;
        expect(await unbalanced(store)).toEqual([]);
        const kept = await store.rows<{ job_id: string; s: number; pa: number }>(
          'SELECT count(*) AS n, sum(vacuum_pa) AS pa FROM readings',
        );
        if (sources.length === 0) {
          refusals += 1;
          expect([what, refusedFiles]).toEqual([
            what,
            [{ file: 'readings.csv', detail: expect.any(String) as string }],
          ]);
          expect(kept).toEqual([{ n: 0, pa: null }]);
        } else {
          const state = states.get(sources[0].sha256);
          expect([what, kept]).toEqual([what, [state]]);
        }
      });
    }
    // Where nothing ever hit, nothing was tested.
    expect(refusals).toBeGreaterThan(0);
  });
});

test.each([
  ['zip', (content: string) => storedZip([{ name: 'readings.csv', content }])],
  ['gz', (content: string) => gzipSync(content)],
] as const)('bytes of a .%s that are not those that were packed are refused', async (kind, packed) => {
  const folder = tempFolder();
  const bytes = packed(readingsText(50));
  bytes[bytes.length >> 1] ^= 1;
  writeFiles(folder, {
    [`readings.csv.${kind}`]: bytes,
    'map.json': JSON.stringify(map),
    'other.csv': readingsText(5),
  });
  await inStore(join(folder, 'store'), async (store) => {
    const paths = [`readings.csv.${kind}`, 'other.csv'].map((name) => join(folder, name));
    const { refusedFiles, sources } = await ingest(store, paths, { map: join(folder, 'map.json') });
    expect(refusedFiles).toEqual([
      { file: `readings.csv.${kind}`, detail: expect.stringContaining('cannot be unpacked') as string },
    ]);
    expect(sources.map(({ file }) => file)).toEqual(['other.csv']);
  });
});

test('a file that goes between listing and reading is a refused one, and comes in when it is back', async () => {
  const folder = tempFolder();
  const drop = writeFiles(join(folder, 'drop'), {
    'a.csv': readingsText(5),
    'b.csv': readingsText(7),
    'c.csv': readingsText(9),
  });
  writeFiles(folder, { 'map.json': JSON.stringify(map) });
  await inStore(join(folder, 'store'), async (store) => {
    const options = { map: join(folder, 'map.json') };
    const first = await ingest(store, [drop], {
      ...options,
      onProgress: ({ file }) => {
        if (file === 'drop/a.csv') rmSync(join(drop, 'b.csv'), { force: true });
      },
    });
    expect(first.refusedFiles.map(({ file }) => file)).toEqual(['drop/b.csv']);
    expect(first.sources.map(({ file }) => file)).toEqual(['drop/a.csv', 'drop/c.csv']);
    writeFileSync(join(drop, 'b.csv'), readingsText(7));
    const second = await ingest(store, [drop], options);
    expect([second.refusedFiles, second.sources.map(({ file }) => file)]).toEqual([[], ['drop/b.csv']]);
    expect(await store.rows('FROM rejects')).toEqual([]);
  });
});

test.each(['bundle', 'mapped'])(
  'a file whose last line was half written is right once it comes whole (%s)',
  async (way) => {
    const whole = readingsText(40);
    const content = async (halves: readonly number[]) => {
      const folder = tempFolder();
      writeFiles(folder, { 'map.json': JSON.stringify(map) });
      const options: IngestOptions = way === 'bundle' ? {} : { map: join(folder, 'map.json') };
      return inStore(join(folder, 'store'), async (store) => {
        for (const length of [...halves, whole.length]) {
          writeFileSync(join(folder, 'readings.csv'), whole.slice(0, length));
          await ingest(store, [join(folder, 'readings.csv')], options);
        }
        return Promise.all(['readings', 'rejects'].map((table) => exported(store, table)));
      });
    };
    const undisturbed = await content([]);
    // Within a number, within a field before the last, after a delimiter, after a whole line.
    for (const cut of [3, 9, 11, 14, whole.length - whole.trimEnd().lastIndexOf('\n') - 1])
      expect(await content([whole.length - cut])).toEqual(undisturbed);
  },
);

function readingsText(rows: number, header = 'job_id,elapsed_s,vacuum_pa'): string {
  const lines = Array.from({ length: rows }, (_, at) => `J,${at},${(500 + Math.sin(at)).toFixed(5)}`);
  return `${header}\n${lines.join('\n')}\n`;
}

/** How many rows of a text are readings, and what their pressures sum up to, by plain reckoning. */
function rowsOf(text: string): { n: number; pa: number | null } {
  const rows = text
    .split('\n')
    .slice(1)
    .filter((row) => /^J,\d+,/.test(row));
  const pa = rows.reduce((sum, row) => sum + Number(row.split(',')[2]), 0);
  return { n: rows.length, pa: rows.length === 0 ? null : (expect.closeTo(pa, 2) as number) };
}

function otherPressures(text: string): string {
  return text.replaceAll(/,5(\d\d\.)/g, ',6$1');
}

function sha256Of(text: string): string {
  return createHash('sha256').update(text).digest('hex');
}
