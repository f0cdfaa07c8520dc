import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { tableFromArrays, tableToIPC } from 'apache-arrow';
import { expect, test } from 'vitest';
import { ingest } from '../../src/steps/ingest.ts';
import type { Store } from '../../src/store/store.ts';
import { ingestFiles, inStore, refused, tempFolder, unbalanced } from '../store/temp-store.ts';

/** Takes in one Parquet file that the engine writes from a select. */
async function parquet(store: Store, name: string, select: string) {
  const folder = tempFolder();
  await store.run(`COPY (${select}) TO '${join(folder, name)}' (FORMAT parquet)`);
  const result = await ingest(store, [join(folder, name)]);
  expect(await unbalanced(store)).toEqual([]);
  return result;
}

test('Arrow streams and files with the types that other programs write', async () => {
  await inStore(join(tempFolder(), 'store'), async (store) => {
    const vacuum_pa = new Float32Array([Number.POSITIVE_INFINITY, 2.5, Number.NaN]);
    const several = tableFromArrays({ job_id: ['A', 'A', 'B'], elapsed_s: new Int32Array([0, 1, 0]), vacuum_pa });
    const single = tableFromArrays({ job_id: ['C'], elapsed_s: new BigInt64Array([5n]) });
    const { sources } = await ingestFiles(store, {
      'readings/several.arrows': Buffer.from(tableToIPC(several, 'stream')),
      'readings/single.arrow': Buffer.from(tableToIPC(single, 'file')),
    });
    expect(sources.map((row) => [row.rows_kept, row.rows_rejected])).toEqual([
      [2, 1],
      [1, 0],
    ]);
    expect(await store.rows('SELECT line, detail, raw FROM rejects')).toEqual([
      { line: 3, detail: 'vacuum_pa: NaN is not from 0 to 200000 Pa', raw: '["B",0,"NaN"]' },
    ]);
    expect(await store.rows('SELECT job_id, elapsed_s, vacuum_pa FROM readings')).toEqual([
      { job_id: 'A', elapsed_s: 0, vacuum_pa: Number.POSITIVE_INFINITY },
      { job_id: 'A', elapsed_s: 1, vacuum_pa: 2.5 },
      { job_id: 'C', elapsed_s: 5, vacuum_pa: null },
    ]);
  });
});

test('Parquet of more rows than the engine hands over at once, read row by row: none is missing', async () => {
  await inStore(join(tempFolder(), 'store'), async (store) => {
    const hired = "CASE WHEN i % 1000 = 999 THEN 'never' ELSE '2020-02-29' END";
    const { sources } = await parquet(
      store,
      'people.parquet',
      `SELECT 'T' || i AS technician_id, ${hired} AS hired_on FROM range(10000) r(i)`,
    );
    expect(sources).toMatchObject([{ rows_read: 10_000, rows_kept: 9990, rows_rejected: 10 }]);
    expect((await refused(store)).map(({ line }) => line)).toEqual(
      Array.from({ length: 10 }, (_, n) => 1000 * (n + 1)),
    );
  });
});

test('Parquet with keys as whole numbers, points in time, days, decimals', async () => {
  await inStore(join(tempFolder(), 'store'), async (store) => {
    await parquet(
      store,
      'jobs.parquet',
      "SELECT 17 AS job_id, TIMESTAMPTZ '2026-03-05 14:30:00.25+01' AS started_at, 1.5::DECIMAL(5,2) AS altitude_m",
    );
    await parquet(store, 'people.parquet', "SELECT 'T' AS technician_id, DATE '2020-02-29' AS hired_on");
    expect(await store.rows('SELECT job_id, started_at, altitude_m FROM jobs')).toEqual([
      { job_id: '17', started_at: '2026-03-05T13:30:00.250Z', altitude_m: 1.5 },
    ]);
    expect(await store.rows('SELECT hired_on FROM people')).toEqual([{ hired_on: '2020-02-29' }]);
    await parquet(store, 'jobs.parquet', "SELECT 'X' AS job_id, TIMESTAMP '2026-03-05 14:30:00' AS started_at");
    expect((await refused(store)).map((row) => row.detail)).toEqual([
      'started_at: "2026-03-05T14:30:00" is no time of ISO 8601 with an offset, such as 2026-03-05T14:30:00+01:00',
    ]);
  });
});

test.each([
  ["' K ' AS job_id, '10' AS elapsed_s, ' over ' AS vacuum_pa", ['K', 10, Number.POSITIVE_INFINITY]],
  ["'K' AS job_id, 10::TINYINT AS elapsed_s, 0.5::FLOAT AS vacuum_pa", ['K', 10, 0.5]],
  ['18 AS job_id, 1.5::DECIMAL(5,2) AS elapsed_s, NULL::DOUBLE AS vacuum_pa', ['18', 1.5, null]],
  ["'K' AS job_id, '1_0' AS elapsed_s, 5 AS vacuum_pa", 'elapsed_s: not a number: "1_0"'],
  ["'K' AS job_id, 1 AS elapsed_s, true AS vacuum_pa", 'vacuum_pa: not a number: true'],
  ["'K' AS job_id, 1 AS elapsed_s, 'nan'::DOUBLE AS vacuum_pa", 'vacuum_pa: NaN is not from 0 to 200000 Pa'],
  [
    "'K' AS job_id, '-infinity'::DOUBLE AS elapsed_s, 5 AS vacuum_pa",
    'elapsed_s: -Infinity is not from -1000000000 to 1000000000 s',
  ],
  ["'' AS job_id, 1 AS elapsed_s, 5 AS vacuum_pa", 'job_id: required, but empty'],
])('readings in Parquet: %s', async (select, expected) => {
  await inStore(join(tempFolder(), 'store'), async (store) => {
    await parquet(store, 'readings.parquet', `SELECT ${select}`);
    const kept = (await store.rows('SELECT job_id, elapsed_s, vacuum_pa FROM readings')).map((row) =>
      Object.values(row),
    );
    const details = (await refused(store)).map((row) => row.detail);
    expect([kept, details]).toEqual(typeof expected === 'string' ? [[], [expected]] : [[expected], []]);
  });
});

test('a folder is no file, and a link to a file of the folder is one', async () => {
  const folder = tempFolder();
  mkdirSync(join(folder, 'bundle', 'jobs.csv'), { recursive: true });
  writeFileSync(join(folder, 'bundle', 'elsewhere'), 'technician_id\nT\n');
  symlinkSync(join(folder, 'bundle', 'elsewhere'), join(folder, 'bundle', 'people.csv'));
  await inStore(join(folder, 'store'), async (store) => {
    const { sources } = await ingest(store, [join(folder, 'bundle')]);
    expect(sources.map((row) => row.file)).toEqual(['bundle/people.csv']);
  });
});
