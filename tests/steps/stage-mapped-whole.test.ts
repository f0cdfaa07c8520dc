import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseSourceMap } from '../../src/sources/parse-source-map.ts';
import { fileDigest } from '../../src/steps/file-digest.ts';
import { mappedInput } from '../../src/steps/find-inputs.ts';
import { stageMapped } from '../../src/steps/stage-mapped.ts';
import { Delivery } from '../../src/store/delivery.ts';
import { StoredLogStarts } from '../../src/store/log-starts.ts';
import { inStore, tempFolder, writeFiles } from '../store/temp-store.ts';

/** What a file gives, with the engine from a size on [bytes], and how many tables the engine took whole. */
async function taken(map: object, content: string, wholeFrom: number) {
  const folder = writeFiles(tempFolder(), { 'log.csv': content });
  const path = join(folder, 'log.csv');
  return inStore(join(folder, 'store'), async (store) => {
    const starts = await StoredLogStarts.read(store);
    const delivery = new Delivery(store, starts);
    const loaded = {
      map: parseSourceMap(JSON.stringify({ name: 'test', ...map }), 'map.json'),
      path: 'map.json',
      sha256: 'm',
    };
    let whole = 0;
    const stageReadings = delivery.stageReadings.bind(delivery);
    delivery.stageReadings = async (...asked) => {
      const rows = await stageReadings(...asked);
      if (rows !== undefined) whole += 1;
      return rows;
    };
    await stageMapped(delivery, mappedInput(path, 'log.csv'), await fileDigest(path), loaded, starts, wholeFrom);
    const sources = await delivery.publish();
    const rows = (table: string, order: string) => store.rows(`FROM ${table} ORDER BY ${order}`);
    return {
      whole,
      gives: {
        sources: sources.toSorted((a, b) => (a.table_name < b.table_name ? -1 : 1)),
        readings: await rows('readings', 'job_id, elapsed_s, gauge'),
        jobs: await rows('jobs', 'job_id'),
        rejects: await rows('rejects', 'line, table_name'),
        starts: await rows('log_starts', 'job_id'),
      },
    };
  });
}

const messageOf = (error: unknown) => (error as Error).message;

const readings = (columns: object, further: object = {}) => ({ rows: [{ table: 'readings', columns }], ...further });
const local = { column: 2, time: { format: 'dd.MM.yyyy HH:mm:ss' } };

const plain: [what: string, map: object, content: string][] = [
  [
    'numbers, units, decimal comma, words, constants',
    readings(
      {
        job_id: { column: 'Job' },
        elapsed_s: { column: 'Min', unit: 'min' },
        gauge: { constant: 'VG' },
        vacuum_pa: { column: 'Vac (mbar)', unit: 'mbar', over_from: 900 },
        line_c: { column: 'Line', unit: 'F' },
        run_mode: { column: 'Mode', words: { k: 'cooling', n: null } },
      },
      { file: { delimiter: ';', decimal: ',', header_begins: 'Job' }, null_words: ['--'], over_words: ['OL'] },
    ),
    'a recorder\nof ours;x\nJob;Min;Vac (mbar);Line;Mode\nA;0;OL;70,5;k\nA;0,5;950;--;n\nA;1,5;1,25e-1;71;cooling\nB;0;;;\n',
  ],
  [
    'the unit in the header, a row once a file',
    {
      time_zone: '-07:00',
      rows: [
        {
          table: 'readings',
          columns: { job_id: { column: 'Job' }, elapsed_s: local, vacuum_pa: { column: 'Vac', unit: 'in header' } },
        },
        { table: 'jobs', once: true, columns: { job_id: { column: 'Job' }, started_at: local } },
      ],
    },
    'Job,At,Vac (kPa)\nA,05.03.2026 23:59:59,1\nA,06.03.2026 00:00:00,2\nB,05.03.2026 12:00:00,3\nB,05.03.2026 11:59:59,4\n',
  ],
  [
    'a clock across midnight, the job by the name of the file',
    readings(
      { job_id: { file_name: true }, elapsed_s: { column: 1, time: 'clock' }, scale_kg: { column: 2, unit: 'lb' } },
      { file: { header: false } },
    ),
    '23:59:58,1\n23:59:59,2\n00:00:01,3\n12:30:00,4\n23:59:58,5\n00:00:00,6\n',
  ],
  [
    'date and time in two columns, clocks that change only on another day',
    readings(
      {
        job_id: { constant: 'A' },
        elapsed_s: { join: [{ column: 1 }, { column: 2 }], with: ' ', time: 'local' },
        suction_line_c: { column: 3 },
      },
      { file: { header: false, delimiter: '\t' }, time_zone: 'America/Denver' },
    ),
    '2026-03-05\t23:59:50\t1\n2026-03-05\t23:59:59\t-40\n2026-03-06\t00:00:03\t2\n',
  ],
];

test('the moment at which a log began is that of its own year, whichever rule of summer time held then', async () => {
  const map = readings(
    { job_id: { column: 1 }, elapsed_s: { column: 2, time: 'local' }, line_c: { column: 3 } },
    { file: { header: false }, time_zone: 'America/Denver' },
  );
  // Since 2007 summer time begins on the second Sunday of March (15 U.S.C. 260a): the 8th of March 2026.
  const content = 'A,2026-03-20 10:00:00,1\nB,2026-03-20 11:00:00,2\nA,2026-03-20 10:00:10,3\n';
  const { whole, gives } = await taken(map, content, 0);
  expect(whole).toBe(1);
  expect(gives.starts.map((row) => row.start_s)).toEqual([
    Date.UTC(2026, 2, 20, 16) / 1000,
    Date.UTC(2026, 2, 20, 17) / 1000,
  ]);
  expect((await taken(map, content, Number.POSITIVE_INFINITY)).gives).toEqual(gives);
});

test.each(plain)(
  '%s: the engine takes it whole, and gives what the row-by-row reader gives',
  async (_, map, content) => {
    const [whole, byRow] = [await taken(map, content, 0), await taken(map, content, Number.POSITIVE_INFINITY)];
    expect(whole.gives).toEqual(byRow.gives);
    expect(whole.whole).toBe(1);
    expect(byRow.whole).toBe(0);
    expect(whole.gives.readings.length).toBeGreaterThan(2);
  },
);

test('clocks that were changed within the log are left to the row-by-row reader', async () => {
  const map = readings(
    { job_id: { constant: 'A' }, elapsed_s: { column: 1, time: 'local' }, line_c: { column: 2 } },
    { file: { header: false }, time_zone: 'America/Denver' },
  );
  // Summer time ends on the first Sunday of November (15 U.S.C. 260a), at 2:00.
  const content = '2026-11-01 00:59:00,1\n2026-11-01 01:59:00,2\n2026-11-01 01:01:00,3\n2026-11-01 02:00:00,4\n';
  const { whole, gives } = await taken(map, content, 0);
  expect(whole).toBe(0);
  expect(gives.readings.map((row) => row.elapsed_s)).toEqual([0, 3600, 3720, 7260]);
});

test('whatever stands in the cells, both readers give the same', async () => {
  const numbers = `1_000| 5 |.5|5.|+5|+-5|1e400|1e5|inf|nan|OL|over|--|5,5|1.5|1,5|5;|"5"|"5"x| "5"|0x1F|-0|||007|5e-324`;
  // Mostly plain cells: a file with one that is wrong is left to the other reader as a whole.
  const seldom = <Value>(plainOnes: fc.Arbitrary<Value>, odd: fc.Arbitrary<Value>) =>
    fc.oneof({ weight: 12, arbitrary: plainOnes }, { weight: 1, arbitrary: odd });
  const cell = seldom(
    fc.oneof(fc.integer({ min: 0, max: 200 }).map(String), fc.constantFrom('', '--')),
    fc.oneof(fc.constantFrom(...numbers.split('|')), fc.double({ min: 0, max: 900, noNaN: true }).map(String)),
  );
  const job = seldom(fc.constantFrom('A', 'B'), fc.constantFrom(' A', 'A ', '"A"', '', 'ä', '-', '"A;B"'));
  const second = fc.integer({ min: 10, max: 59 }).map((seconds) => `05.03.2026 10:00:${seconds}`);
  const oddTimes = `5.3.2026 10:00:02|05.03.2026 24:00:00|05.03.2026  9:00:00|31.02.2026 10:00:00|05.03.26 10:00:00| 05.03.2026 10:00:03`;
  const time = seldom(second, fc.constantFrom('', '05.03.2026 10:00:00 ', ...oddTimes.split('|')));
  const row = fc.tuple(job, time, cell, cell).map((cells) => cells.join(';'));
  const map = (decimal: string, once: boolean) => ({
    file: { delimiter: ';', decimal, header: false },
    null_words: ['--'],
    over_words: ['OL'],
    time_zone: 'Europe/Berlin',
    rows: [
      {
        table: 'readings',
        columns: {
          job_id: { column: 1 },
          elapsed_s: local,
          vacuum_pa: { column: 3, unit: 'micron', over_from: 800 },
          line_c: { column: 4, unit: 'F', words: { '-0': null } },
        },
      },
      ...(once ? [{ table: 'jobs', once: true, columns: { job_id: { column: 1 }, started_at: local } }] : []),
    ],
  });
  let wholes = 0;
  await fc.assert(
    fc.asyncProperty(
      fc.array(row, { minLength: 1, maxLength: 3 }),
      fc.constantFrom('.', ','),
      fc.boolean(),
      async (lines, decimal, once) => {
        const content = `${lines.join('\n')}\n`;
        const whole = await taken(map(decimal, once), content, 0).catch(messageOf);
        const byRow = await taken(map(decimal, once), content, Number.POSITIVE_INFINITY).catch(messageOf);
        if (typeof whole === 'string' || typeof byRow === 'string') expect(whole).toEqual(byRow);
        else {
          wholes += whole.whole;
          expect(whole.gives).toEqual(byRow.gives);
        }
      },
    ),
    { numRuns: 40, seed: 11 },
  );
  expect(wholes).toBeGreaterThan(3);
}, 120_000);
