import { Buffer } from 'node:buffer';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readings } from '../../src/records/tables/readings.ts';
import { exportTable } from '../../src/store/export-table.ts';
import { ingestFiles, inStore, refused, tempFolder, unbalanced } from '../store/temp-store.ts';

/** Takes one file in and gives what became of it. */
function take(name: string, content: string | Buffer) {
  return inStore(join(tempFolder(), 'store'), async (store) => {
    const result = await ingestFiles(store, { [name]: content });
    expect(await unbalanced(store)).toEqual([]);
    const rejects = await store.rows('SELECT file, line, table_name, reason_id, detail, raw FROM rejects ORDER BY ALL');
    return { result, rejects, kept: (await store.rows('FROM readings')).length };
  });
}

describe('a wrong row is refused with its line, its column and its text, and the rest is kept', () => {
  const columns = 'job_id,elapsed_s,suction_pa,run_mode';
  test.each([
    ['J,x,5,', 'wrong-value', 'elapsed_s: not a number: "x"'],
    ['J,1,"5,5",', 'wrong-value', 'suction_pa: not a number: "5,5"'],
    ['J,1,NaN,', 'wrong-value', 'suction_pa: not a number: "NaN"'],
    ['J,1,inf,', 'wrong-value', 'suction_pa: not a number: "inf"'],
    ['J,1,over,', 'wrong-value', 'suction_pa: not a number: "over"'],
    ['J,1,1_000,', 'wrong-value', 'suction_pa: not a number: "1_000"'],
    ['J,1,-0.1,', 'wrong-value', 'suction_pa: -0.1 is not from 0 to 30000000 Pa'],
    ['J,1,30000000.1,', 'wrong-value', 'suction_pa: 30000000.1 is not from 0 to 30000000 Pa'],
    ['J,1,5,Cooling', 'wrong-value', 'run_mode: "Cooling" is none of cooling, heating, defrost'],
    [',1,5,', 'wrong-value', 'job_id: required, but empty'],
    ['J,,5,', 'wrong-value', 'elapsed_s: required, but empty'],
    ['J,1', 'wrong-shape', '2 fields where the header has 4'],
    ['J,1,5,,9', 'wrong-shape', '5 fields where the header has 4'],
    ['J,1,5,cool\0ing', 'wrong-shape', 'the row holds NUL bytes'],
  ])('%j', async (row, reason, detail) => {
    const { result, rejects, kept } = await take('readings.csv', `${columns}\nA,0,1,\n\n${row}\nA,1,1,\n`);
    expect(rejects).toEqual([
      { file: 'bundle/readings.csv', line: 4, table_name: 'readings', reason_id: reason, detail, raw: row },
    ]);
    expect([kept, result.sources[0].rows_kept, result.sources[0].rows_rejected]).toEqual([2, 2, 1]);
  });

  test('bytes that are not UTF-8', async () => {
    const { rejects, kept } = await take('readings.csv', Buffer.from('job_id,elapsed_s\nJos\xe9,0\nB,0\n', 'latin1'));
    expect(rejects).toMatchObject([{ line: 2, detail: 'the row holds bytes that are no UTF-8 text' }]);
    expect(kept).toBe(1);
  });

  test('a row after one that spans several lines is still named by the line on which it begins', async () => {
    const { rejects } = await take(
      'people.csv',
      'technician_id,display_name\r\nA,"x\r\ny\r\nz"\r\n,"p\r\nq"\r\nB,\r\n',
    );
    expect(rejects).toMatchObject([{ line: 5, detail: 'technician_id: required, but empty', raw: ',"p\r\nq"' }]);
  });

  test('raw text is cut at 2,000 characters', async () => {
    const { rejects } = await take('readings.csv', `job_id,elapsed_s\n${'x'.repeat(3000)},0\n`);
    expect(String(rejects[0].raw)).toHaveLength(2000);
    expect(rejects[0].detail).toMatch(/^job_id: /);
  });

  test.each([
    ['2026-03-05T14:30:00', 'is no time of ISO 8601 with an offset'],
    ['05.03.2026 14:30', 'is no time of ISO 8601 with an offset'],
    ['2026-02-30T14:30:00Z', 'is no time of ISO 8601 with an offset'],
  ])('a time such as %s', async (time, detail) => {
    const { rejects } = await take('jobs.csv', `job_id,started_at\nA,${time}\nB,2026-03-05T14:30:00+01:00\n`);
    expect(rejects).toHaveLength(1);
    expect(rejects[0]).toMatchObject({ line: 2, raw: `A,${time}` });
    expect(rejects[0].detail).toContain(detail);
  });

  test('days, flags and words of other tables', async () => {
    const { rejects } = await take(
      'inspections.csv',
      'system_id,inspected_on,leak_found\nS,2026-02-29,\nS,2026-02-28,yes\nS,2024-02-29,true\n',
    );
    expect(rejects.map((row) => row.detail)).toEqual([
      'inspected_on: "2026-02-29" is no day of ISO 8601, such as 2026-03-05',
      'leak_found: neither true nor false: "yes"',
    ]);
  });

  test('lines of NDJSON that are no object, or hold one of the wrong kind', async () => {
    const { rejects, kept } = await take(
      'readings.ndjson',
      '\uFEFF{"job_id":"A","elapsed_s":0}\r\n{"job_id":"A","elapsed_s":1\n[1]\n\n{"job_id":"A","elapsed_s":{"s":1}}\n{"job_id":7,"elapsed_s":"2"}\n',
    );
    expect(rejects.map((row) => [row.line, row.reason_id])).toEqual([
      [2, 'wrong-shape'],
      [3, 'wrong-shape'],
      [5, 'wrong-value'],
    ]);
    expect(kept).toBe(2);
  });
});

describe('a file that cannot be read is refused whole, with the reason, and nothing of it is kept', () => {
  test.each([
    ['readings.csv', '', 'the file is empty'],
    ['readings.csv', '\uFEFF\n\n', 'the file is empty'],
    ['readings.csv', 'PK\u0003\u0004\0\0binary,\u0001\n', 'no text file: it holds NUL bytes'],
    ['readings.csv', Buffer.from([0x61, 0xc3, 0x28, 0x0a]), 'no text file: it holds bytes that are no UTF-8 text'],
    ['readings.csv', 'job,elapsed_s\nA,0\n', 'table readings needs column job_id; the file has job, elapsed_s'],
    ['readings.csv', 'job_id,elapsed_s,job_id\nA,0,A\n', 'column "job_id" stands twice'],
    ['readings.csv', 'job_id,elapsed_s\nA,0\n"C,0\nD,0\n', 'a quote that opens on line 3 or after is never closed'],
    ['people.ndjson', 'nonsense\n', 'no line holds a JSON object'],
  ])('%s %j', async (name, content, detail) => {
    const { result, rejects, kept } = await take(name, content);
    const table_name = name.split('.')[0];
    expect(rejects).toEqual([
      { file: `bundle/${name}`, line: 0, table_name, reason_id: 'file-unreadable', detail, raw: null },
    ]);
    expect(result.refusedFiles).toEqual([{ file: `bundle/${name}`, detail }]);
    expect([kept, result.sources]).toEqual([0, []]);
  });

  test.each(['readings.parquet', 'readings.arrow', 'people.parquet'])('%s that is none', async (name) => {
    const { result } = await take(name, 'just words');
    expect(result.refusedFiles[0].detail).toMatch(/^no (Parquet|Arrow IPC) file/);
  });

  test.each(['arrow', 'parquet'] as const)('a file of %s that is damaged in its midst', async (format) => {
    await inStore(join(tempFolder(), 'store'), async (store) => {
      const rows = Array.from({ length: 3000 }, (_, index) => `J,${index},${Math.sin(index) + 1}`);
      await ingestFiles(store, { 'readings.csv': `job_id,elapsed_s,suction_pa\n${rows.join('\n')}\n` });
      const path = join(tempFolder(), `readings.${format}`);
      await exportTable(store, readings, { format, out: path });
      const bytes = readFileSync(path);
      const damaged =
        format === 'arrow' ? bytes.subarray(0, bytes.length * 0.6) : Buffer.from(bytes).fill(7, 500, 20_000);
      const { refusedFiles, sources } = await ingestFiles(store, {
        [`readings.${format}`]: damaged,
        'people.csv': 'technician_id\nT\n',
      });
      expect(refusedFiles.map(({ file }) => file)).toEqual([`bundle/readings.${format}`]);
      expect(sources.map(({ table_name }) => table_name)).toEqual(['people']);
      expect(await unbalanced(store)).toEqual([]);
      expect(await store.rows('SELECT count(*) AS n FROM readings')).toEqual([{ n: 3000 }]);
    });
  });

  test('the other files of the bundle are taken in, and a second try replaces the refusal', async () => {
    await inStore(join(tempFolder(), 'store'), async (store) => {
      const files = { 'readings/a.csv': 'job_id,elapsed_s\n"A,0\n', 'readings/b.csv': 'job_id,elapsed_s\nB,0\n' };
      for (const _ of [1, 2]) await ingestFiles(store, files);
      expect(await store.rows('SELECT job_id FROM readings')).toEqual([{ job_id: 'B' }]);
      expect((await refused(store)).map((row) => row.line)).toEqual([0]);
      await ingestFiles(store, { ...files, 'readings/a.csv': 'job_id,elapsed_s\nA,0\n' });
      expect(await refused(store)).toEqual([]);
    });
  });

  test.each([
    ['people.csv', 'technician_id,display_name\n'],
    ['readings.csv', 'job_id,elapsed_s'],
    ['people.ndjson', ''],
  ])('%s with a header at most is no fault: no rows', async (name, content) => {
    const { result, rejects } = await take(name, content);
    expect([rejects, result.refusedFiles, result.sources[0].rows_read]).toEqual([[], [], 0]);
  });
});

/** A cell's text and the value it means; `wrong` where it means none. */
const cell = {
  job: fc.constantFrom(['A', 'A'], ['B', 'B'], [' A ', 'A'], ['"B"', 'B'], ['', 'wrong'], ['   ', 'wrong']),
  time: fc.constantFrom(['0', 0], ['1', 1], ['1.0', 1], ['2e0', 2], ['', 'wrong'], ['soon', 'wrong'], ['2e9', 'wrong']),
  gauge: fc.constantFrom(['', null], ['g', 'g'], ['h', 'h']),
  vacuum: fc.constantFrom(
    ['', null],
    ['5', 5],
    ['.5', 0.5],
    ['over', Number.POSITIVE_INFINITY],
    ['-1', 'wrong'],
    ['inf', 'wrong'],
    ['1_0', 'wrong'],
  ),
  mode: fc.constantFrom(['', null], ['cooling', 'cooling'], ['"heating"', 'heating'], ['off', 'wrong']),
};
type Cell = [string, string | number | null];
const sound = fc.tuple(
  cell.job.filter(([, value]) => value !== 'wrong'),
  cell.time.filter(([, value]) => value !== 'wrong'),
  cell.gauge,
  cell.vacuum.filter(([, value]) => value !== 'wrong'),
  cell.mode.filter(([, value]) => value !== 'wrong'),
);
const any = fc.tuple(cell.job, cell.time, cell.gauge, cell.vacuum, cell.mode);
const ragged = fc.constantFrom('A,0', 'A', 'A,0,,,,,extra', ',,,');

/** What should come of rows, worked out row by row without any of the project's code. */
function expectedOf(rows: readonly (Cell[] | string)[]) {
  const kept = new Map<string, unknown[]>();
  let rejected = 0;
  let repeated = 0;
  for (const row of rows) {
    if (typeof row === 'string' || row.some(([, value]) => value === 'wrong')) {
      rejected += 1;
      continue;
    }
    const values = row.map(([, value]) => value);
    const key = JSON.stringify(values.slice(0, 3));
    const first = kept.get(key);
    if (first === undefined) kept.set(key, values);
    else if (first.every((value, index) => Object.is(value, values[index]))) repeated += 1;
    else rejected += 1;
  }
  return { kept: [...kept.values()].map((row) => JSON.stringify(row.map(String))).sort(), rejected, repeated };
}

test.each([
  ['faulty', fc.array(fc.oneof({ weight: 5, arbitrary: any }, { weight: 1, arbitrary: ragged }), { maxLength: 12 })],
  ['sound', fc.array(sound, { maxLength: 8 })],
])('random %s rows are each kept, refused or repeated, as plain reckoning has it', async (_, arbitrary) => {
  await fc.assert(
    fc.asyncProperty(arbitrary as fc.Arbitrary<(Cell[] | string)[]>, async (rows) => {
      const lines = rows.map((row) => (typeof row === 'string' ? row : row.map(([text]) => text).join(',')));
      const text = ['job_id,elapsed_s,gauge,vacuum_pa,run_mode', ...lines, ''].join('\n');
      const expected = expectedOf(rows);
      await inStore(join(tempFolder(), 'store'), async (store) => {
        const { sources } = await ingestFiles(store, { 'readings.csv': text });
        const { rows_read, rows_kept, rows_rejected, rows_repeated } = sources[0];
        const stored = await store.rows('SELECT job_id, elapsed_s, gauge, vacuum_pa, run_mode FROM readings');
        const kept = stored.map((row) => JSON.stringify(Object.values(row).map(String))).sort();
        expect({ kept, rejected: rows_rejected, repeated: rows_repeated }).toEqual(expected);
        expect([rows_read, rows_kept]).toEqual([rows.length, kept.length]);
        expect(await unbalanced(store)).toEqual([]);
      });
    }),
    { numRuns: 20, seed: 7 },
  );
});
