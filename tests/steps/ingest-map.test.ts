import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { ingest } from '../../src/steps/ingest.ts';
import { runDryhold } from '../store/run-dryhold.ts';
import { inStore, tempFolder, unbalanced, writeFiles } from '../store/temp-store.ts';
import { mapped } from './mapped-file.ts';

const over = Number.POSITIVE_INFINITY;

test('header lines, delimiter, names and positions, units, null and over words, constants, the file name', async () => {
  const { readings, rejects, sources } = await mapped(
    {
      file: { delimiter: ';', skip_lines: 2 },
      null_words: ['---'],
      over_words: ['ATM'],
      rows: [
        {
          table: 'readings',
          columns: {
            job_id: { file_name: true },
            elapsed_s: { column: 'Time (min)', unit: 'min' },
            gauge: { constant: 'VG-1' },
            vacuum_pa: { column: 2, unit: 'micron', over_from: 20_000 },
            line_c: { column: 'Line', unit: 'F' },
          },
        },
      ],
    },
    'A logger "of ours\r\nserial;17\r\nTime (min);Vac;Line\r\n0;ATM;50\r\n0.5;20000;---\r\n1;500;32\r\n1.5;---;\r\n2;wet;\r\n',
  );
  // 1 micron of mercury = 0.133322368 Pa; 50 °F = 10 °C, 32 °F = 0 °C: exact by definition.
  expect(readings).toEqual([
    { job_id: 'J-7', elapsed_s: 0, gauge: 'VG-1', vacuum_pa: over, line_c: expect.closeTo(10, 12) as number },
    { job_id: 'J-7', elapsed_s: 30, gauge: 'VG-1', vacuum_pa: over },
    {
      job_id: 'J-7',
      elapsed_s: 60,
      gauge: 'VG-1',
      vacuum_pa: expect.closeTo(66.661184, 9) as number,
      line_c: expect.closeTo(0, 12) as number,
    },
    { job_id: 'J-7', elapsed_s: 90, gauge: 'VG-1' },
  ]);
  expect(rejects).toEqual([
    {
      file: 'J-7.csv',
      line: 8,
      table_name: 'readings',
      reason_id: 'wrong-value',
      detail: 'vacuum_pa: not a number: "wet"',
      raw: '2;wet;',
    },
  ]);
  expect(sources).toMatchObject([{ rows_read: 5, rows_kept: 4, rows_rejected: 1 }]);
});

test('times of day count from the first row, on across midnight', async () => {
  const columns = { job_id: { file_name: true }, elapsed_s: { column: 1, time: 'clock' }, suction_pa: { column: 2 } };
  const { readings, rejects } = await mapped(
    { file: { header: false }, rows: [{ table: 'readings', columns }] },
    '23:59:58,1\n23:59:59.5,2\n0:00:01,3\n24:00:00,4\n12:60:00,5\n12:00:02,6\n00:00:01,7\n',
  );
  expect(readings.map((row) => row.elapsed_s)).toEqual([0, 1.5, 3, 43_204, 86_403]);
  expect(rejects.map((row) => [row.line, row.detail])).toEqual([
    [4, 'elapsed_s: not a time of day hh:mm:ss: "24:00:00"'],
    [5, 'elapsed_s: not a time of day hh:mm:ss: "12:60:00"'],
  ]);
});

test('a row may feed two gauges and two tables; each table has its own book', async () => {
  const of = (gauge: string, column: string) => ({
    table: 'readings',
    columns: {
      job_id: { column: 'job' },
      elapsed_s: { column: 't' },
      gauge: { constant: gauge },
      vacuum_pa: { column },
    },
  });
  // A column that is told makes a row speak; here all of a table's own columns are told.
  const { readings, jobs, sources } = await mapped(
    {
      rows: [
        of('pump', 'a'),
        of('system', 'b'),
        { table: 'jobs', columns: { job_id: { column: 'job' }, started_at: { column: 'at' } } },
      ],
    },
    'job,t,a,b,at\nX,0,5,6,2026-03-05T14:30:00Z\nX,1,7,,2026-03-05T14:30:00Z\n',
  );
  expect(readings).toEqual([
    { job_id: 'X', elapsed_s: 0, gauge: 'pump', vacuum_pa: 5 },
    { job_id: 'X', elapsed_s: 0, gauge: 'system', vacuum_pa: 6 },
    { job_id: 'X', elapsed_s: 1, gauge: 'pump', vacuum_pa: 7 },
    { job_id: 'X', elapsed_s: 1, gauge: 'system' },
  ]);
  expect(jobs).toEqual([{ job_id: 'X', started_at: '2026-03-05T14:30:00Z' }]);
  expect(sources.map((row) => [row.table_name, row.rows_read, row.rows_kept, row.rows_repeated])).toEqual([
    ['readings', 2, 2, 0],
    ['jobs', 2, 1, 1],
  ]);
});

test('the book holds where lines that feed two rows each come again', async () => {
  const folder = writeFiles(tempFolder(), {
    'map.json': JSON.stringify({
      name: 'sets',
      rows: ['A', 'B'].map((set) => ({
        table: 'line_sets',
        columns: { job_id: { column: 'job' }, line_set_id: { constant: set }, line_length_m: { column: set } },
      })),
    }),
    'one.csv': 'job,A,B\nX,1,2\nY,3,4\n',
    'two.csv': 'job,A,B\nX,1,2\nY,3,5\nX,1,9\nX,1,2\n',
  });
  await inStore(join(folder, 'store'), async (store) => {
    const books = [];
    for (const name of ['one.csv', 'two.csv']) {
      const { sources } = await ingest(store, [join(folder, name)], { map: join(folder, 'map.json') });
      books.push(sources.map((row) => [row.rows_read, row.rows_kept, row.rows_rejected, row.rows_repeated]));
    }
    // Of the second file: X is in already, Y has a new B, the third line contradicts the first, the fourth repeats it.
    expect(books).toEqual([[[2, 2, 0, 0]], [[4, 1, 1, 2]]]);
    expect(await unbalanced(store)).toEqual([]);
  });
});

test('NDJSON goes through a map too', async () => {
  const columns = { job_id: { column: 'j' }, elapsed_s: { column: 't' }, vacuum_pa: { column: 'v', unit: 'kPa' } };
  const { readings } = await mapped(
    { file: { kind: 'ndjson' }, over_words: ['OL'], rows: [{ table: 'readings', columns }] },
    '{"j":"X","t":0,"v":"OL"}\n{"j":"X","t":1,"v":0.5}\n{"j":"X","t":2,"v":null}\n',
    'x.ndjson',
  );
  expect(readings).toEqual([
    { job_id: 'X', elapsed_s: 0, vacuum_pa: over },
    { job_id: 'X', elapsed_s: 1, vacuum_pa: 500 },
    { job_id: 'X', elapsed_s: 2 },
  ]);
});

describe('a wrong map is one clear line, exit status 3, and nothing is written', () => {
  const needed = { job_id: { column: 'job' }, elapsed_s: { column: 't' } };
  const readings = (columns: object) => ({ name: 'm', rows: [{ table: 'readings', columns }] });
  test.each([
    ['broken JSON', '{"name": "m",', 'the whole file: '],
    ['no rows', JSON.stringify({ name: 'm', rows: [] }), 'rows: '],
    ['an unknown table', JSON.stringify({ name: 'm', rows: [{ table: 'trips', columns: {} }] }), 'rows.0.table: '],
    ['a word of its own', JSON.stringify({ ...readings(needed), encoding: 'x' }), 'the top: '],
    [
      'an unknown unit',
      JSON.stringify(readings({ ...needed, vacuum_pa: { column: 'v', unit: 'furlong' } })),
      'rows.0.columns.vacuum_pa: unknown unit "furlong"',
    ],
    [
      'a unit of another dimension',
      JSON.stringify(readings({ ...needed, vacuum_pa: { column: 'v', unit: 'kg' } })),
      'rows.0.columns.vacuum_pa: "kg" does not measure what the column holds (Pa)',
    ],
    [
      'an unknown column of ours',
      JSON.stringify(readings({ ...needed, vacuum: { column: 'v' } })),
      'rows.0.columns.vacuum: table readings has no column "vacuum"',
    ],
    [
      'a missing required column',
      JSON.stringify(readings({ job_id: { column: 'job' } })),
      'rows.0.columns: table readings needs column "elapsed_s"',
    ],
    [
      'a constant that does not fit',
      JSON.stringify(readings({ ...needed, run_mode: { constant: 'dancing' } })),
      'rows.0.columns.run_mode: the constant does not fit',
    ],
    [
      'a time of day for what is no time',
      JSON.stringify(readings({ ...needed, suction_pa: { column: 't', time: 'clock' } })),
      'rows.0.columns.suction_pa: a time of day feeds only a column of seconds',
    ],
    [
      'a column that the file lacks',
      JSON.stringify(readings({ ...needed, vacuum_pa: { column: 'Vac' } })),
      'rows.0.columns.vacuum_pa: ',
    ],
    [
      'a position past the end',
      JSON.stringify(readings({ ...needed, vacuum_pa: { column: 4 } })),
      'rows.0.columns.vacuum_pa: ',
    ],
  ])('%s', async (_, map, where) => {
    const folder = writeFiles(tempFolder(), { 'map.json': map, 'log.csv': 'job,t,v\nX,0,1\n' });
    const path = join(folder, 'map.json');
    await inStore(join(folder, 'store'), async (store) => {
      const error: unknown = await ingest(store, [join(folder, 'log.csv')], { map: path }).catch(
        (caught: unknown) => caught,
      );
      expect(error).toMatchObject({ name: 'DryholdError', code: 'map-invalid', exitStatus: 3 });
      const { message } = error as Error;
      expect(message).toContain(`${path}: source map is wrong at ${where}`);
      expect(message).not.toContain('\n');
      for (const table of ['readings', 'sources', 'rejects', 'segments', 'job_revisions'])
        expect(await store.rows(`FROM ${table}`)).toEqual([]);
    });
  });

  test('on the command line', () => {
    const map = JSON.stringify(readings({ ...needed, vacuum_pa: { column: 'Vac' } }));
    const folder = writeFiles(tempFolder(), { 'map.json': map, 'log.csv': 'job,t,v\nX,0,1\n' });
    const [log, path, store] = ['log.csv', 'map.json', 'store'].map((name) => join(folder, name));
    expect(runDryhold(['ingest', log, '--map', path, '--store', store])).toEqual({
      status: 3,
      stdout: '',
      stderr: `dryhold: ${path}: source map is wrong at rows.0.columns.vacuum_pa: ${log} has no column "Vac"; it has job, t, v\n`,
    });
  });

  test('a map that does not exist', () => {
    const folder = writeFiles(tempFolder(), { 'log.csv': 'job,t,v\nX,0,1\n' });
    const args = [
      'ingest',
      join(folder, 'log.csv'),
      '--map',
      join(folder, 'no.json'),
      '--store',
      join(folder, 'store'),
    ];
    expect(runDryhold(args)).toMatchObject({
      status: 3,
      stderr: `dryhold: ${join(folder, 'no.json')}: no such file or folder\n`,
    });
  });
});
