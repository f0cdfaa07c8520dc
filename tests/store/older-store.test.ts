import { expect, test } from 'vitest';
import { recordingColumns } from '../../src/records/recording-columns.ts';
import { migrate, newestVersion } from '../../src/store/migrations.ts';
import type { Store } from '../../src/store/store.ts';
import { exported, ingestFiles, inStore, tempFolder } from './temp-store.ts';

const before = 'job_id,started_at,clamp_accuracy_k,note\nold,2026-03-05T14:30:00+01:00,0.5,before\n';
const after =
  'job_id,started_at,charging_hose_bore_mm,charging_hose_phase,fixed_test_mode,note\nnew,2026-03-06T14:30:00+01:00,4.8,liquid,true,after\n';

test('a store of version 3 gains the columns of charging hoses and run tests, and every row stays in its columns', async () => {
  const folder = `${tempFolder()}/store`;
  await inStore(folder, async (store) => {
    await ingestFiles(store, { 'jobs.csv': before });
    // As version 3 had it.
    for (const column of [
      'pressure_accuracy_ratio',
      'charging_hose_bore_mm',
      'charging_hose_length_m',
      'charging_hose_phase',
      'fixed_test_mode',
    ])
      await store.run(`ALTER TABLE jobs DROP COLUMN ${column}`);
    await store.run('UPDATE store_version SET version = 3');
    expect(await migrate(store.connection)).toBe(newestVersion);
    await ingestFiles(store, { 'jobs.csv': after });
    const text = await exported(store, 'jobs');
    const [header, ...rows] = text.trim().split('\n');
    const cells = rows.map((row) => {
      const values = row.split(',');
      return Object.fromEntries(header.split(',').map((name, index) => [name, values[index]]));
    });
    expect(cells).toMatchObject([
      {
        job_id: 'new',
        charging_hose_bore_mm: '4.8',
        charging_hose_phase: 'liquid',
        fixed_test_mode: 'true',
        note: 'after',
      },
      { job_id: 'old', clamp_accuracy_k: '0.5', charging_hose_bore_mm: '', note: 'before' },
    ]);
  });
});

test('a store of version 4 knows of no file what it fed: one that comes again joins, and from then on is known', async () => {
  const log = (...rows: string[]) => `job_id,elapsed_s,suction_pa\n${rows.join('\n')}\n`;
  await inStore(`${tempFolder()}/store`, async (store) => {
    await ingestFiles(store, { 'readings.csv': log('A,0,1', 'A,1,2', 'B,0,1') });
    // As version 4 had it.
    await store.run('DROP TABLE fed_readings');
    await store.run('UPDATE store_version SET version = 4');
    expect(await migrate(store.connection)).toBe(newestVersion);
    const stored = () => store.rows('SELECT job_id, elapsed_s AS s, suction_pa AS pa FROM readings ORDER BY ALL');
    await ingestFiles(store, { 'readings.csv': log('A,1,2', 'A,2,3') });
    expect(await stored()).toEqual([
      { job_id: 'A', s: 0, pa: 1 },
      { job_id: 'A', s: 1, pa: 2 },
      { job_id: 'A', s: 2, pa: 3 },
      { job_id: 'B', s: 0, pa: 1 },
    ]);
    await ingestFiles(store, { 'readings.csv': log('A,2,4') });
    expect(await stored()).toEqual([
      { job_id: 'A', s: 0, pa: 1 },
      { job_id: 'A', s: 2, pa: 4 },
      { job_id: 'B', s: 0, pa: 1 },
    ]);
  });
});

test('a store of version 4 gains the facts of how readings were recorded, and its records stay', async () => {
  const folder = `${tempFolder()}/store`;
  const recorded = async (store: Store) =>
    (
      await store.rows<{ name: string }>(
        "SELECT column_name AS name FROM information_schema.columns WHERE table_name = 'facts'",
      )
    )
      .map(({ name }) => name)
      .filter((name) => name in recordingColumns);
  await inStore(folder, async (store) => {
    await ingestFiles(store, { 'jobs.csv': before });
    // As version 4 had it.
    for (const column of Object.keys(recordingColumns)) await store.run(`ALTER TABLE facts DROP COLUMN ${column}`);
    await store.run('UPDATE store_version SET version = 4');
    expect(await recorded(store)).toEqual([]);
    expect(await migrate(store.connection)).toBe(newestVersion);
    expect(await recorded(store)).toEqual(Object.keys(recordingColumns));
    expect(await store.rows('SELECT job_id, note FROM jobs')).toEqual([{ job_id: 'old', note: 'before' }]);
  });
});

test('a store of version 4 takes Parquet files again that broke off after 2,048 rows', async () => {
  await inStore(`${tempFolder()}/store`, async (store) => {
    const rows = [
      ['half.parquet', 2048],
      ['whole.parquet', 2047],
      ['other.csv', 2048],
    ];
    for (const [file, read] of rows)
      await store.run(`INSERT INTO sources VALUES ('${file}', 'x', 'people', ${read}, ${read}, 0, 0, '')`);
    await store.run('UPDATE store_version SET version = 4');
    await migrate(store.connection);
    expect(await store.rows('SELECT file FROM sources ORDER BY file')).toEqual([
      { file: 'other.csv' },
      { file: 'whole.parquet' },
    ]);
  });
});
