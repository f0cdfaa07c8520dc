import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ingest } from '../../src/steps/ingest.ts';
import type { Store } from '../../src/store/store.ts';
import { ingestFiles, inStore, refused, tempFolder, unbalanced, writeFiles } from '../store/temp-store.ts';

function withStore(work: (store: Store) => Promise<void>): Promise<void> {
  return inStore(join(tempFolder(), 'store'), async (store) => {
    await work(store);
    expect(await unbalanced(store)).toEqual([]);
  });
}

/** What became of each file's rows: kept, repeated, refused. */
async function booked(store: Store, files: Record<string, string>) {
  const { sources } = await ingestFiles(store, files);
  for (const row of sources) expect(row.rows_kept + row.rows_repeated + row.rows_rejected).toBe(row.rows_read);
  return sources.map((row) => [row.rows_kept, row.rows_repeated, row.rows_rejected]);
}

const jobs = (store: Store) =>
  store.rows('SELECT job_id, technician_id, refrigerant, gauge_id, note FROM jobs ORDER BY job_id');
const revisions = (store: Store) => store.rows('SELECT job_id, revision FROM job_revisions ORDER BY job_id');
const office = 'job_id,started_at,technician_id,note\nA,2026-03-05T14:30:00Z,T,first\nB,2026-03-05T16:30:00Z,U,\n';

test("an office's list of jobs and an instrument's line of one complement each other", () =>
  withStore(async (store) => {
    expect(await booked(store, { 'jobs/office.csv': office })).toEqual([[2, 0, 0]]);
    const line = 'job_id,started_at,gauge_id,refrigerant\nA,2026-03-05T14:30:00Z,G,R-410A\n';
    expect(await booked(store, { 'jobs/gauge.csv': line })).toEqual([[1, 0, 0]]);
    // The list comes again with one more job: it says nothing new of the others.
    const longer = `${office}C,2026-03-06T14:30:00Z,T,\n`;
    expect(await booked(store, { 'jobs/office.csv': longer })).toEqual([[1, 2, 0]]);
    // A cell that is filled replaces; one that is empty keeps.
    const later = 'job_id,started_at,note,technician_id\nA,2026-03-05T14:30:00Z,second,\n';
    expect(await booked(store, { 'jobs/later.csv': later })).toEqual([[1, 0, 0]]);
    expect(await jobs(store)).toEqual([
      { job_id: 'A', technician_id: 'T', refrigerant: 'R-410A', gauge_id: 'G', note: 'second' },
      { job_id: 'B', technician_id: 'U', refrigerant: null, gauge_id: null, note: null },
      { job_id: 'C', technician_id: 'T', refrigerant: null, gauge_id: null, note: null },
    ]);
    expect(await revisions(store)).toEqual([
      { job_id: 'A', revision: 3 },
      { job_id: 'B', revision: 1 },
      { job_id: 'C', revision: 1 },
    ]);
  }));

test('rows of two files of one bundle that only complement each other become one; within a file they contradict', () =>
  withStore(async (store) => {
    const line = 'job_id,started_at,gauge_id\nA,2026-03-05T14:30:00Z,G\nB,2026-03-05T16:31:00Z,G\n';
    const readings = (column: string, ...rows: string[]) => `job_id,elapsed_s,${column}\n${rows.join('\n')}\n`;
    const files = {
      'jobs/gauge.csv': line,
      'jobs/office.csv': office,
      'readings/scale.csv': readings('scale_kg', 'A,0,5', 'A,1,4'),
      'readings/vacuum.csv': readings('vacuum_pa', 'A,0,900', 'A,2,500'),
    };
    expect(await booked(store, files)).toEqual([
      [2, 0, 0],
      [1, 0, 1],
      [2, 0, 0],
      [2, 0, 0],
    ]);
    expect(await refused(store)).toMatchObject([{ line: 3, reason_id: 'contradicts-earlier-row' }]);
    expect(await jobs(store)).toMatchObject([
      { job_id: 'A', technician_id: 'T', gauge_id: 'G', note: 'first' },
      { job_id: 'B', technician_id: null, gauge_id: 'G', note: null },
    ]);
    const stored = () => store.rows('SELECT elapsed_s AS s, vacuum_pa, scale_kg FROM readings ORDER BY s');
    expect(await stored()).toEqual([
      { s: 0, vacuum_pa: 900, scale_kg: 5 },
      { s: 1, vacuum_pa: null, scale_kg: 4 },
      { s: 2, vacuum_pa: 500, scale_kg: null },
    ]);
    // Each file is written down with its own column: the vacuum log again withdraws no weight.
    const shorter = readings('vacuum_pa', 'A,0,900');
    expect(await booked(store, { 'readings/vacuum.csv': shorter })).toEqual([[0, 1, 0]]);
    expect(await stored()).toEqual([
      { s: 0, vacuum_pa: 900, scale_kg: 5 },
      { s: 1, vacuum_pa: null, scale_kg: 4 },
    ]);
    const twice = 'job_id,elapsed_s,vacuum_pa,scale_kg\nK,0,900,\nK,0,,5\n';
    expect(await booked(store, { 'readings/twice.csv': twice })).toEqual([[1, 0, 1]]);
  }));

test('rows read one by one are counted as repeated by the line, beside new and wrong ones of the same job', () =>
  withStore(async (store) => {
    const good = 'job_id,elapsed_s,vacuum_pa,line_c\nA,0,900,20\nA,1,500,\n';
    expect(await booked(store, { 'readings/1.csv': good })).toEqual([[2, 0, 0]]);
    const more = 'job_id,elapsed_s,vacuum_pa,line_c\nA,0,900,\nA,1,500,21\nA,2,over,\nA,3,wet,\nA,1,500,21\n';
    // Of five lines one says nothing new, one fills a cell, one is new, one is wrong, and one stands twice.
    expect(await booked(store, { 'readings/2.csv': more })).toEqual([[2, 2, 1]]);
    expect(await store.rows('SELECT elapsed_s AS s, vacuum_pa, line_c FROM readings ORDER BY s')).toEqual([
      { s: 0, vacuum_pa: 900, line_c: 20 },
      { s: 1, vacuum_pa: 500, line_c: 21 },
      { s: 2, vacuum_pa: Number.POSITIVE_INFINITY, line_c: null },
    ]);
  }));

test('a file of which nothing counts any more leaves the book, and may come again', () =>
  withStore(async (store) => {
    const columns = {
      job_id: { column: 'J' },
      elapsed_s: { column: 'T', unit: 's' },
      line_c: { column: 'C', unit: 'C' },
    };
    const right = { name: 'right', rows: [{ table: 'readings', columns }] };
    const wrong = {
      name: 'wrong',
      rows: [{ table: 'readings', columns: { ...columns, line_c: { column: 'C', unit: 'F' } } }],
    };
    const text = 'J,T,C\nA,0,20\nA,1,wet\n';
    const folder = writeFiles(tempFolder(), {
      'first.csv': text,
      'second.csv': text,
      'wrong.json': JSON.stringify(wrong),
      'right.json': JSON.stringify(right),
    });
    const through = (file: string, map: string) => ingest(store, [join(folder, file)], { map: join(folder, map) });
    await through('first.csv', 'wrong.json');
    await through('second.csv', 'right.json');
    expect(await store.rows('SELECT elapsed_s AS s, line_c FROM readings')).toEqual([{ s: 0, line_c: 20 }]);
    for (const table of ['sources', 'rejects', 'fed_readings'])
      expect(await store.rows(`SELECT file FROM ${table}`)).toEqual([{ file: 'second.csv' }]);
    const again = await through('first.csv', 'wrong.json');
    expect(again.alreadyIn).toEqual([]);
    expect(await store.rows('SELECT round(line_c, 2) AS c FROM readings')).toEqual([{ c: -6.67 }]);
  }));
