import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Store } from '../../src/store/store.ts';
import { compact } from '../../src/store/compact.ts';
import { exported, ingestFiles, inStore, refused, tempFolder, unbalanced } from '../store/temp-store.ts';

/** A CSV of readings: job, seconds, and a pressure. */
function readingsCsv(...rows: [job: string, elapsedS: number, suctionPa: number][]): string {
  return `job_id,elapsed_s,suction_pa\n${rows.map((row) => row.join(',')).join('\n')}\n`;
}

/** Readings of one job, a second apart. */
function series(job: string, values: readonly number[]): [string, number, number][] {
  return values.map((value, index) => [job, index, value]);
}

const stored = (store: Store) =>
  store.rows<{ job_id: string; s: number; pa: number }>(
    'SELECT job_id, elapsed_s AS s, suction_pa AS pa FROM readings ORDER BY ALL',
  );
const revisions = async (store: Store) =>
  Object.fromEntries(
    (await store.rows('SELECT * FROM job_revisions ORDER BY ALL')).map((row) => [row.job_id, row.revision]),
  );

function withStore(work: (store: Store) => Promise<void>): Promise<void> {
  return inStore(join(tempFolder(), 'store'), async (store) => {
    await work(store);
    expect(await unbalanced(store)).toEqual([]);
    const known = await store.rows<{ file: string }>('SELECT file FROM segments ORDER BY file');
    expect(readdirSync(store.segmentsFolder).sort()).toEqual(known.map(({ file }) => file));
  });
}

describe('order within one delivery', () => {
  test('readings out of order and jobs mixed are stored in (job, time, gauge) order', () =>
    withStore(async (store) => {
      const text = 'job_id,elapsed_s,gauge\nB,2,\nA,1,y\nB,1,\nA,0,\nA,1,x\nA,1,\n';
      await ingestFiles(store, { 'readings.csv': text });
      const expected = [
        { job_id: 'A', s: 0, gauge: null },
        { job_id: 'A', s: 1, gauge: 'x' },
        { job_id: 'A', s: 1, gauge: 'y' },
        { job_id: 'A', s: 1, gauge: null },
        { job_id: 'B', s: 1, gauge: null },
        { job_id: 'B', s: 2, gauge: null },
      ];
      expect(await store.rows('SELECT job_id, elapsed_s AS s, gauge FROM readings')).toEqual(expected);
      expect(await store.rows('SELECT job_id, first_row, rows, gauges FROM segment_jobs ORDER BY ALL')).toEqual([
        { job_id: 'A', first_row: 0, rows: 4, gauges: 3 },
        { job_id: 'B', first_row: 4, rows: 2, gauges: 1 },
      ]);
    }));

  test.each([
    ['', ''],
    ['', 'A,9,1_000\n'],
    ['A,9,1_000\n', 'A,9,x\n'],
  ])('a job that is spread over two files is one job (wrong rows: %j, %j)', (first, second) =>
    withStore(async (store) => {
      await ingestFiles(store, {
        'readings/1.csv': readingsCsv(['A', 0, 10], ['A', 2, 12], ['B', 0, 5]) + first,
        'readings/2.csv': readingsCsv(['A', 1, 11], ['C', 0, 7]) + second,
      });
      expect(await store.rows("SELECT elapsed_s AS s, suction_pa AS pa FROM readings WHERE job_id = 'A'")).toEqual([
        { s: 0, pa: 10 },
        { s: 1, pa: 11 },
        { s: 2, pa: 12 },
      ]);
      expect(await stored(store)).toHaveLength(5);
      expect(await revisions(store)).toEqual({ A: 1, B: 1, C: 1 });
    }),
  );

  test('a reading that stands again is counted as repeated, one that contradicts is refused with its line', () =>
    withStore(async (store) => {
      const text = 'job_id,elapsed_s,gauge,suction_pa\nA,0,g,1\nA,0,h,1\nA,0,g,1\nA,0,h,2\nA,0,,1\n';
      const { sources } = await ingestFiles(store, { 'readings.csv': text });
      expect(sources).toMatchObject([{ rows_read: 5, rows_kept: 3, rows_repeated: 1, rows_rejected: 1 }]);
      expect(await store.rows('SELECT line, reason_id, detail, raw FROM rejects')).toEqual([
        {
          line: 5,
          reason_id: 'contradicts-earlier-row',
          detail: 'same job_id, gauge, elapsed_s (A h 0.0) as an earlier row, other content',
          raw: 'A,0,h,2',
        },
      ]);
    }));

  test('the same holds for rows of other tables and across the files of a bundle', () =>
    withStore(async (store) => {
      const { sources } = await ingestFiles(store, {
        'people/1.csv': 'technician_id,hired_on\nT,2020-01-01\nU,\n',
        'people/2.csv': 'technician_id,hired_on\nU,\nT,2021-01-01\n',
      });
      expect(sources.map((row) => [row.rows_kept, row.rows_repeated, row.rows_rejected])).toEqual([
        [2, 0, 0],
        [0, 1, 1],
      ]);
      expect(await refused(store)).toMatchObject([{ line: 3, reason_id: 'contradicts-earlier-row' }]);
      expect(await store.rows('SELECT technician_id, hired_on FROM people ORDER BY ALL')).toEqual([
        { technician_id: 'T', hired_on: '2020-01-01' },
        { technician_id: 'U', hired_on: null },
      ]);
    }));
});

describe('deliveries that come again', () => {
  test('the same bytes are left alone, under whatever name', () =>
    withStore(async (store) => {
      const files = {
        'readings.csv': readingsCsv(...series('A', [1, 2])),
        'jobs.csv': 'job_id,started_at\nA,2026-03-05T14:30:00Z\n',
      };
      await ingestFiles(store, files);
      const before = await exported(store, 'sources');
      const again = await ingestFiles(store, { ...files, 'readings.csv': '', 'readings/x.csv': files['readings.csv'] });
      expect(again.alreadyIn).toEqual(['bundle/jobs.csv', 'bundle/readings/x.csv']);
      expect(again.sources).toEqual([]);
      expect(await exported(store, 'sources')).toBe(before);
      expect(await revisions(store)).toEqual({ A: 1 });
    }));

  test('of an overlapping export the known jobs are repeated and the new ones kept', () =>
    withStore(async (store) => {
      await ingestFiles(store, {
        'readings.csv': readingsCsv(...series('A', [1, 2]), ...series('B', [3])),
        'jobs.csv': 'job_id,started_at\nA,2026-03-05T14:30:00Z\nB,2026-03-05T16:30:00Z\n',
      });
      const { sources } = await ingestFiles(store, {
        'readings.csv': readingsCsv(...series('B', [3]), ...series('C', [4, 5])),
        'jobs.csv': 'job_id,started_at\nB,2026-03-05T16:30:00Z\nC,2026-03-06T14:30:00Z\n',
      });
      expect(sources.map((row) => [row.table_name, row.rows_kept, row.rows_repeated])).toEqual([
        ['jobs', 1, 1],
        ['readings', 2, 1],
      ]);
      expect((await stored(store)).map((row) => `${row.job_id}${row.pa}`).sort()).toEqual([
        'A1',
        'A2',
        'B3',
        'C4',
        'C5',
      ]);
      expect(await revisions(store)).toEqual({ A: 1, B: 1, C: 1 });
    }));

  test('a corrected export replaces the whole job, with fewer rows too, and nothing old is seen', () =>
    withStore(async (store) => {
      await ingestFiles(store, { 'readings.csv': readingsCsv(...series('A', [1, 2, 3]), ...series('B', [9])) });
      await ingestFiles(store, { 'readings.csv': readingsCsv(['A', 5, 7]) });
      expect(await stored(store)).toEqual([
        { job_id: 'A', s: 5, pa: 7 },
        { job_id: 'B', s: 0, pa: 9 },
      ]);
      expect(await revisions(store)).toEqual({ A: 2, B: 1 });
      // Three of the four rows of the first segment no longer count: it was rewritten.
      expect(await store.rows('SELECT * FROM superseded_jobs')).toEqual([]);
      expect(await store.rows('SELECT sum(rows) AS n FROM segments')).toEqual([{ n: 2 }]);
    }));

  test('a little that is superseded stays in its segment, unseen', () =>
    withStore(async (store) => {
      await ingestFiles(store, { 'readings.csv': readingsCsv(...series('A', [1]), ...series('B', [1, 2, 3, 4, 5])) });
      await ingestFiles(store, { 'readings.csv': readingsCsv(...series('A', [2])) });
      expect(await store.rows('SELECT job_id FROM superseded_jobs')).toEqual([{ job_id: 'A' }]);
      expect((await stored(store)).map((row) => `${row.job_id}${row.pa}`).sort()).toEqual([
        'A2',
        'B1',
        'B2',
        'B3',
        'B4',
        'B5',
      ]);
    }));

  test('where part of a job lies in a file that is in already, correcting the other part keeps it', () =>
    withStore(async (store) => {
      const first = readingsCsv(['A', 0, 10], ['B', 0, 5]);
      await ingestFiles(store, { 'readings/1.csv': first, 'readings/2.csv': readingsCsv(['A', 1, 11]) });
      const result = await ingestFiles(store, { 'readings/1.csv': first, 'readings/2.csv': readingsCsv(['A', 1, 12]) });
      expect(await stored(store)).toEqual([
        { job_id: 'A', s: 0, pa: 10 },
        { job_id: 'A', s: 1, pa: 12 },
        { job_id: 'B', s: 0, pa: 5 },
      ]);
      expect(result.alreadyIn).toEqual(['bundle/readings/1.csv']);
      expect(await revisions(store)).toEqual({ A: 2, B: 1 });
    }));

  test('a changed gauge, line set or weighing raises the revision of the jobs it belongs to, and of no other', () =>
    withStore(async (store) => {
      await ingestFiles(store, {
        'jobs.csv': 'job_id,started_at,gauge_id\nA,2026-03-05T14:30:00Z,G\nB,2026-03-05T14:30:00Z,H\n',
        'gauges.csv': 'gauge_id,step_pa\nG,0.1\nH,0.1\n',
        'weighings.csv': 'weighing_id,job_id,start_kg\nW,A,5\n',
      });
      const before = await revisions(store);
      await ingestFiles(store, { 'gauges.csv': 'gauge_id,step_pa\nG,0.2\nH,0.1\n' });
      await ingestFiles(store, { 'weighings.csv': 'weighing_id,job_id,start_kg\nW,B,5\n' });
      const after = await revisions(store);
      // The weighing moved from A to B: both are touched.
      expect([after.A - before.A, after.B - before.B]).toEqual([2, 1]);
    }));
});

test(
  'thirty small deliveries are merged on the way, and the readings stay what they were',
  () =>
    withStore(async (store) => {
      const all: string[] = [];
      for (let day = 0; day < 30; day += 1) {
        const rows = [...series(`J${day}`, [day, day + 1]), ...series('again', [day])];
        await ingestFiles(store, { [`readings/${day}.csv`]: readingsCsv(...rows) });
        all.push(`J${day} 0 ${day}`, `J${day} 1 ${day + 1}`);
      }
      const [{ n }] = await store.rows<{ n: number }>('SELECT count(*) AS n FROM segments');
      expect(n).toBeLessThan(24);
      const now = (await stored(store)).map((row) => `${row.job_id} ${row.s} ${row.pa}`);
      expect(now.sort()).toEqual([...all, 'again 0 29'].sort());
      expect(await compact(store)).toBe(0);
    }),
  20_000,
);

test('a log sent again with another value in a column that is the same all along is another log', () =>
  withStore(async (store) => {
    // Of an even number of rows, of which equal hashes would take each other away.
    const csv = (outdoorC: number) =>
      `job_id,elapsed_s,suction_pa,outdoor_c\n${[0, 1, 2, 3].map((atS) => `A,${atS},${900 + atS},${outdoorC}\n`).join('')}`;
    for (const outdoorC of [20, 30]) await ingestFiles(store, { 'readings.csv': csv(outdoorC) });
    expect(await store.rows('SELECT DISTINCT outdoor_c AS c FROM readings')).toEqual([{ c: 30 }]);
    expect(await revisions(store)).toEqual({ A: 2 });
  }));

test('a failure while publishing leaves the store and its folder as they were', () =>
  withStore(async (store) => {
    await ingestFiles(store, { 'readings.csv': readingsCsv(...series('A', [1])) });
    // What is written after the readings have become a segment file is not there.
    await store.run('ALTER TABLE job_revisions RENAME TO aside');
    const files = {
      'people.csv': 'technician_id\nT\n',
      'readings.csv': readingsCsv(...series('A', [2, 3]), ['B', 0, 1]),
    };
    await expect(ingestFiles(store, files)).rejects.toThrow(/job_revisions/);
    expect(readdirSync(store.segmentsFolder)).toHaveLength(1);
    await store.run('ALTER TABLE aside RENAME TO job_revisions');
    expect(await stored(store)).toEqual([{ job_id: 'A', s: 0, pa: 1 }]);
    expect(await store.rows('FROM people')).toEqual([]);
    expect(await revisions(store)).toEqual({ A: 1 });
    const left = await store.rows("SELECT table_name FROM information_schema.tables WHERE table_name LIKE 'staged%'");
    expect(left).toEqual([]);
    await ingestFiles(store, files);
    expect(await revisions(store)).toEqual({ A: 2, B: 1 });
  }));
