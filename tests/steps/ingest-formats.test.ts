import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { inputTables } from '../../src/records/tables.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { writeBundle } from '../../src/simulate/write-bundle.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { exportFormats, exportTable } from '../../src/store/export-table.ts';
import type { Store } from '../../src/store/store.ts';
import { exported, ingestFiles, inStore, refused, tempFolder, unbalanced, writeFiles } from '../store/temp-store.ts';

/** Tables and cells that the simulated shop leaves out: every kind of value, and text that needs care. */
const further = {
  'line_sets.csv': 'job_id,line_set_id,line_length_m\nJ-1,A,12.5\nJ-1,B,0.1\n',
  'repairs.csv': 'repair_id,system_id,leak_found_on,cost,shutdown\nR-1,S-1,2026-02-28,12.345,true\nR-2,S-2,,,false\n',
  'inspections.csv': 'system_id,inspected_on,leak_found\nS-1,2026-03-01,false\n',
  'reviews.csv':
    'job_id,check_id,verdict,reviewed_by,reason\nJ-1,any/check,wrong,"Ost, ""Zoë""","two\nlines, a comma and a ""quote"""\n',
  'readings/odd.csv':
    'job_id,elapsed_s,gauge,vacuum_pa,run_mode,phase_mark,scale_kg\nJ-1,0,a,over,cooling,,-0.0000001\nJ-1,0,b,0.1,,hold,1e3\nJ-1,0.30000000000000004,,,,,5000\n',
};

async function everyTable(store: Store): Promise<Record<string, string>> {
  const texts: Record<string, string> = {};
  for (const { name } of inputTables) texts[name] = await exported(store, name);
  return texts;
}

test('the same shop as CSV, NDJSON, Parquet and Arrow gives byte-equal exports of every table', async () => {
  const folder = tempFolder();
  await writeBundle(simulateFleet({ jobs: 4, seed: 11 }), join(folder, 'csv'));
  writeFiles(join(folder, 'csv'), further);
  const expected = await inStore(join(folder, 'store-csv'), async (store) => {
    const result = await ingest(store, [join(folder, 'csv')]);
    expect([result.refusedFiles, await refused(store), await unbalanced(store)]).toEqual([[], [], []]);
    for (const format of exportFormats) {
      mkdirSync(join(folder, format), { recursive: true });
      if (format !== 'csv')
        for (const table of inputTables)
          await exportTable(store, table, { format, out: join(folder, format, `${table.name}.${format}`) });
    }
    return everyTable(store);
  });
  expect(expected.readings).toContain('\nJ-1,0.0,a,over,');
  expect(expected.reviews).toContain('"Ost, ""Zoë"""');
  expect(expected.line_sets).toContain('J-1,B,0.1');
  for (const format of exportFormats) {
    await inStore(join(folder, `store-${format}`), async (store) => {
      const result = await ingest(store, [join(folder, format)]);
      expect([format, result.refusedFiles, await refused(store)]).toEqual([format, [], []]);
      expect(await everyTable(store)).toEqual(expected);
      expect(await unbalanced(store)).toEqual([]);
    });
  }
});

test('over is +infinity in the store, whatever the format spells it with', async () => {
  const csv = 'job_id,elapsed_s,vacuum_pa\nJ,0,over\nJ,1,5\n';
  const ndjson = '{"job_id":"J","elapsed_s":0,"vacuum_pa":"over"}\n{"job_id":"J","elapsed_s":1,"vacuum_pa":5}\n';
  const spellings: Record<string, string>[] = [{ 'readings.csv': csv }, { 'readings.ndjson': ndjson }];
  for (const files of spellings) {
    await inStore(join(tempFolder(), 'store'), async (store) => {
      await ingestFiles(store, files);
      expect(await store.rows('SELECT vacuum_pa FROM readings')).toEqual([
        { vacuum_pa: Number.POSITIVE_INFINITY },
        { vacuum_pa: 5 },
      ]);
    });
  }
});

test('tabs part the cells of a .tsv', async () => {
  await inStore(join(tempFolder(), 'store'), async (store) => {
    await ingestFiles(store, { 'readings.tsv': 'job_id\telapsed_s\tgauge\nJ,1\t0\t\n' });
    expect(await store.rows('SELECT job_id, elapsed_s, gauge FROM readings')).toEqual([
      { job_id: 'J,1', elapsed_s: 0, gauge: null },
    ]);
  });
});

test('a number too large for a double is refused in every text format, not taken for "above the range"', async () => {
  await inStore(join(tempFolder(), 'store'), async (store) => {
    await ingestFiles(store, {
      'readings/a.csv': 'job_id,elapsed_s,vacuum_pa\nA,0,1e400\n',
      'readings/b.ndjson': '{"job_id":"B","elapsed_s":0,"vacuum_pa":1e400}\n',
    });
    expect(await store.rows('SELECT * FROM readings')).toEqual([]);
    expect((await refused(store)).map((row) => row.reason_id)).toEqual(['wrong-value', 'wrong-value']);
  });
});

test('a folder of files for a table is one table, and unknown columns are told once for each file', async () => {
  await inStore(join(tempFolder(), 'store'), async (store) => {
    const result = await ingestFiles(store, {
      'readings/one.csv': 'job_id,elapsed_s,colour,suction_pa\nA,0,red,5\nA,1,blue,6\n',
      'readings/two.ndjson': '{"job_id":"B","elapsed_s":0,"colour":"red"}\n',
      'people.csv': 'technician_id,shoe_size\nT-1,44\n',
      'notes.csv': 'what\never\n',
    });
    expect(result.unknownColumns).toEqual([
      { file: 'bundle/people.csv', columns: ['shoe_size'] },
      { file: 'bundle/readings/one.csv', columns: ['colour'] },
      { file: 'bundle/readings/two.ndjson', columns: ['colour'] },
    ]);
    expect(await store.rows('SELECT job_id, elapsed_s, suction_pa FROM readings ORDER BY ALL')).toEqual([
      { job_id: 'A', elapsed_s: 0, suction_pa: 5 },
      { job_id: 'A', elapsed_s: 1, suction_pa: 6 },
      { job_id: 'B', elapsed_s: 0, suction_pa: null },
    ]);
    expect(await store.rows('SELECT * FROM people')).toEqual([
      { technician_id: 'T-1', display_name: null, hired_on: null },
    ]);
  });
});

test.each([
  ['a byte order mark', '\uFEFFjob_id,elapsed_s,suction_pa\nJ,0,5\nJ,1,6\n'],
  ['Windows line ends', 'job_id,elapsed_s,suction_pa\r\nJ,0,5\r\nJ,1,6\r\n'],
  ['old Macintosh line ends', 'job_id,elapsed_s,suction_pa\rJ,0,5\rJ,1,6\r'],
  ['mixed line ends', 'job_id,elapsed_s,suction_pa\r\nJ,0,5\nJ,1,6\r\n'],
  ['no last line end', 'job_id,elapsed_s,suction_pa\nJ,0,5\nJ,1,6'],
  ['quotes all over', '"job_id","elapsed_s","suction_pa"\n"J","0","5"\n"J","1","6"\n'],
  ['spaces before quotes', 'job_id, elapsed_s, "suction_pa"\nJ, "0", 5\n J , 1, "6"\n'],
  ['blank lines', '\njob_id,elapsed_s,suction_pa\n\nJ,0,5\n   \nJ,1,6\n\n'],
  ['a comma at every end', 'job_id,elapsed_s,suction_pa,\nJ,0,5,\nJ,1,6,\n'],
  ['commas after some rows', 'job_id,elapsed_s,suction_pa\nJ,0,5,\nJ,1,6,,\n'],
])('CSV with %s reads the same', async (_, text) => {
  await inStore(join(tempFolder(), 'store'), async (store) => {
    const result = await ingestFiles(store, { 'readings.csv': text });
    expect(await refused(store)).toEqual([]);
    expect(result.sources.map((source) => source.rows_kept)).toEqual([2]);
    expect(await store.rows('SELECT job_id, elapsed_s, suction_pa FROM readings')).toEqual([
      { job_id: 'J', elapsed_s: 0, suction_pa: 5 },
      { job_id: 'J', elapsed_s: 1, suction_pa: 6 },
    ]);
  });
});

test('names and notes with quotes, commas, line breaks and every script come back as they were', async () => {
  const name = 'O\'Quote, "Zoë"\nsecond line — 工 🙂';
  await inStore(join(tempFolder(), 'store'), async (store) => {
    await ingestFiles(store, {
      'people.csv': `technician_id,display_name\n"T,""1""","${name.replaceAll('"', '""')}"\n`,
      'readings.csv': `job_id,elapsed_s\n"J,""1""\nü",0\n`,
    });
    expect(await refused(store)).toEqual([]);
    expect(await store.rows('SELECT technician_id, display_name FROM people')).toEqual([
      { technician_id: 'T,"1"', display_name: name },
    ]);
    expect(await store.rows('SELECT job_id FROM readings')).toEqual([{ job_id: 'J,"1"\nü' }]);
  });
});
