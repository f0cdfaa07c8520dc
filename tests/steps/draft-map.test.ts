import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { writeXlsx } from 'hucre/xlsx';
import { afterAll, expect, test } from 'vitest';
import { type DraftedFile, draftFileMap } from '../../src/steps/draft-map.ts';
import { absolutePressure, isGaugeUnitName, toGauge } from '../../src/units/gauge-pressure.ts';
import { toInterchange } from '../../src/units/unit.ts';
import type { AnyUnitName } from '../../src/units/unit-words.ts';

const folder = mkdtempSync(join(tmpdir(), 'dryhold-draft-test-'));
afterAll(() => rmSync(folder, { recursive: true }));
const samples = fileURLToPath(new URL('../../sample-data/', import.meta.url));

async function drafted(name: string, content: string | Uint8Array): Promise<DraftedFile> {
  const path = join(folder, name);
  writeFileSync(path, content);
  return await draftFileMap(path, 'America/Denver');
}

/** Our columns, how files call them, and the units they come in, with the least and the most that is written. */
const known: Readonly<
  Record<string, readonly [words: readonly string[], units: Readonly<Record<string, readonly [number, number]>>]>
> = {
  vacuum_pa: [
    ['Vacuum', 'Vakuum', 'Vide', 'Vacío', 'Vacuum pressure'],
    {
      micron: [5, 760_000],
      Pa: [1, 101_325],
      mbar: [0.1, 1013],
      Torr: [0.1, 760],
      kPa: [0.1, 101],
      mTorr: [5, 760_000],
    },
  ],
  test_pressure_pa: [
    ['Nitrogen', 'Prüfdruck', 'Test pressure', 'Azote'],
    { psi: [0, 600], psig: [0, 600], barg: [0, 42], kPag: [0, 4200], psia: [15, 600] },
  ],
  suction_pa: [
    ['Suction pressure', 'Saugdruck', 'Pression aspiration', 'Presión succión'],
    { psig: [0, 200], barg: [0, 14] },
  ],
  liquid_pa: [
    ['Liquid pressure', 'Flüssigkeitsdruck', 'Pression liquide'],
    { psi: [0, 600], psig: [0, 600], barg: [0, 42] },
  ],
  suction_line_c: [
    ['Suction line temp', 'Sauggastemperatur', 'Température aspiration'],
    { F: [-20, 150], C: [-30, 60] },
  ],
  outdoor_c: [
    ['Outdoor', 'Außentemperatur', 'Ambient temp', 'Température extérieure'],
    { '°F': [-40, 120], '°C': [-40, 50], K: [233, 323] },
  ],
  return_c: [['Return air', 'Rückluft', 'Reprise'], { F: [50, 90], C: [10, 32] }],
  line_c: [['Pipe temp', 'Rohrtemperatur', 'Température tuyau', 'Temperatura tubería'], { F: [0, 150], C: [-18, 66] }],
  compressor_w: [['Power', 'Leistung', 'Puissance', 'Potencia'], { W: [0, 9000], kW: [0, 9] }],
  scale_kg: [['Scale', 'Gewicht', 'Poids', 'Peso'], { kg: [0, 60], lb: [0, 130], oz: [0, 2000], g: [0, 60_000] }],
};

const columnArbitrary = fc.constantFrom(...Object.keys(known)).chain((column) => {
  const [words, units] = known[column];
  return fc.record({
    column: fc.constant(column),
    word: fc.constantFrom(...words),
    unit: fc.constantFrom(...Object.keys(units)),
    written: fc.constantFrom('(?)', '[?]', ', ?', ' ?', '_?', ''),
    digits: fc.integer({ min: 0, max: 2 }),
    values: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 30, maxLength: 30 }),
  });
});

const fileArbitrary = fc.record({
  columns: fc.uniqueArray(columnArbitrary, { selector: ({ column }) => column, minLength: 1, maxLength: 6 }),
  delimiter: fc.constantFrom(',', ';', '\t', '|'),
  decimal: fc.constantFrom('.', ','),
  rows: fc.integer({ min: 4, max: 30 }),
  time: fc.constantFrom('Time (s)', 'Elapsed [min]', 'Zeit', 'Timestamp'),
  preamble: fc.array(
    fc.constantFrom('Bench recorder', '', 'Operator: Odd', 'Battery: 88 %', '# exported', 'Firmware 1.2'),
    { maxLength: 8 },
  ),
  breaks: fc.constantFrom('\n', '\r\n'),
});
type InventedFile = typeof fileArbitrary extends fc.Arbitrary<infer File> ? File : never;

const inOurs = (value: number, unit: string) => {
  const name = (unit === 'psi' ? 'psig' : unit.replace('°', '')) as AnyUnitName;
  return isGaugeUnitName(name) ? absolutePressure(toGauge(value, name), 101_325) : toInterchange(value, name);
};

/** The text of an invented file, and what each of our columns must hold by row. */
function inventedFile(file: InventedFile): { text: string; wanted: Map<string, number[]> } {
  const { columns, delimiter, decimal, time } = file;
  const cell = (text: string) => (text.includes(delimiter) ? `"${text}"` : text);
  const wanted = new Map<string, number[]>([['elapsed_s', []]]);
  const names = columns.map(
    ({ word, unit, written }) =>
      `${word}${written.startsWith('(') || written.startsWith('[') ? ' ' : ''}${written.replace('?', unit)}`,
  );
  const lines = [...file.preamble, [time, ...names].map(cell).join(delimiter)];
  for (let row = 0; row < file.rows; row += 1) {
    const atS = row * 6;
    wanted.get('elapsed_s')?.push(atS);
    const clock = new Date(Date.UTC(2026, 2, 25, 10, 0, atS)).toISOString();
    const numbers = columns.map(({ column, unit, digits, values }) => {
      const [low, high] = known[column][1][unit];
      const text = (low + (high - low) * values[row]).toFixed(digits);
      wanted.set(column, [...(wanted.get(column) ?? []), inOurs(Number(text), unit)]);
      return text.replace('.', decimal);
    });
    const at = {
      'Time (s)': String(atS),
      'Elapsed [min]': (atS / 60).toFixed(1).replace('.', decimal),
      Zeit: clock.slice(11, 19),
      Timestamp: clock.slice(0, 19).replace('T', ' '),
    }[time];
    lines.push([at, ...numbers].map(cell).join(delimiter));
  }
  return { text: `${lines.join(file.breaks)}${file.breaks}`, wanted };
}

test('whatever the delimiter, decimal mark, units, words and preamble: values come in right, or their column is unsure', async () => {
  let sure = 0;
  let all = 0;
  await fc.assert(
    fc.asyncProperty(fileArbitrary, async (file) => {
      const { text, wanted } = inventedFile(file);
      const { unsure, preview } = await drafted('log.csv', text);
      const open = unsure.map(({ where }) => where);
      const shown = preview.find(({ table }) => table === 'readings');
      for (const [column, values] of wanted) {
        all += 1;
        const invented = file.columns.find((each) => each.column === column);
        if (invented?.written === '' || invented?.unit === 'psi')
          expect(open).toContainEqual(expect.stringMatching(`columns.${column}\\.unit$`));
        if (open.some((where) => where.includes(`.columns.${column}`) || where.startsWith('file.'))) continue;
        sure += 1;
        for (const [index, row] of (shown?.rows ?? []).entries())
          expect([column, row[column]]).toEqual([column, expect.closeTo(values[index], 6)]);
      }
      expect(shown).toMatchObject({ tried: file.rows });
      if (unsure.every(({ text }) => !text.includes('would be refused'))) expect(shown?.refused).toBe(0);
    }),
    { numRuns: 150, seed: 7 },
  );
  // An honest draft that doubts everything would be of no use.
  expect(sure / all).toBeGreaterThan(0.8);
});

const logText = 't (s),Vacuum (micron)\n0,900\n5,800\n';

test('a packed file is looked into', async () => {
  const draft = await drafted('log.csv.gz', gzipSync(logText));
  expect(draft).toMatchObject({ file: 'log.csv', content: 'text parted by commas, packed' });
  expect(draft.preview[0].rows).toHaveLength(2);
  expect(JSON.stringify(draft.map)).not.toContain(folder);
});

test('of an archive the first file is looked into', async () => {
  const draft = await draftFileMap(join(samples, 'packed-meadow/drops/week.zip'), 'America/Denver');
  expect(draft.content).toMatch(/^text parted by spaces, packed$/);
  expect(draft.preview[0].rows).not.toEqual([]);
});

test('a workbook: the sheet with the table, where it begins, and what another sheet tells of the job', async () => {
  const at = (s: number) => new Date(Date.UTC(2026, 2, 5, 10, 0, s));
  const book = await writeXlsx({
    sheets: [
      {
        name: 'Info',
        rows: [
          ['Job number', 'J-55'],
          ['Technician', 'Odd'],
        ],
      },
      {
        name: 'Log',
        rows: [
          ['Vacuum log'],
          [],
          [null, 'When', 'Vacuum', 'Pipe'],
          [null, null, 'micron', '°F'],
          [null, at(0), 760_000, 70],
          [null, at(5), 7600, 70.5],
          [null, at(10), 760, 71],
        ],
      },
    ],
  });
  const draft = await drafted('book.xlsx', book);
  expect(draft.map.file).toEqual({ sheet: 2, header_begins: 'When', unit_row: true });
  expect(draft.map.head).toEqual({ job: { after: 'Job number' }, technician: { after: 'Technician' } });
  expect(draft.preview.map(({ table, rows, refused }) => [table, rows.length, refused])).toEqual([
    ['readings', 3, 0],
    ['jobs', 1, 0],
  ]);
  expect(draft.preview[0].rows[2]).toMatchObject({
    job_id: 'J-55',
    elapsed_s: 10,
    vacuum_pa: expect.closeTo(101.325, 3),
  });
});

test('a workbook whose sheets hold a table each: what is known of them comes into one map', async () => {
  const book = await writeXlsx({
    sheets: [
      {
        name: 'Calls',
        rows: [
          ['Site (ft)', 1000],
          [],
          ['Job', 'Technician', 'Start', 'Weighed in (kg)'],
          ['J-1', 'Crank', new Date(Date.UTC(2026, 2, 5, 10)), 0.5],
          ['J-2', 'Crank', new Date(Date.UTC(2026, 2, 6, 10)), 0.25],
        ],
      },
      {
        name: 'Log',
        rows: [
          ['Job', 'Elapsed (s)', 'Vacuum (micron)'],
          ['J-1', 0, 9000],
          ['J-1', 5, 800],
          ['J-2', 0, 700],
        ],
      },
      {
        name: 'Stock',
        rows: [
          ['Shelf', 'Screws', 'Nuts'],
          ['A', 12, 3],
          ['B', 7, 9],
          ['C', 8, 8],
        ],
      },
    ],
  });
  const draft = await drafted('book.xlsx', book);
  expect(draft.map.parts).toEqual({ 'part-1': { header_begins: 'Job' }, 'part-2': { sheet: 2 } });
  expect(draft.preview.map(({ table, rows, refused }) => [table, rows.length, refused])).toEqual([
    ['jobs', 2, 0],
    ['readings', 3, 0],
  ]);
  expect(draft.preview[0].rows[0]).toMatchObject({ job_id: 'J-1', altitude_m: expect.closeTo(304.8, 6) });
  expect(draft.unsure).toContainEqual({ where: 'file.sheet', text: expect.stringContaining('sheet 3') });
});

test.each(['parquet', 'arrow'])('the columns of a file of the kind %s', async (kind) => {
  const draft = await drafted(`log.${kind}`, readFileSync(join(samples, `bundle-${kind}/jobs.${kind}`)));
  expect(draft.map.rows[0].columns).toMatchObject({
    job_id: { column: 'job_id' },
    started_at: { column: 'started_at' },
  });
  expect(draft.preview[0]).toMatchObject({ table: 'jobs', refused: 0 });
  expect(draft.preview[0].rows.length).toBeGreaterThan(0);
});

test('of a long file only the first part is read, and its end for a footer', async () => {
  const rows = Array.from({ length: 90_000 }, (_, index) => `${index},${900 - (index % 50)}`);
  const long = await drafted('long.csv', `t (s),Vacuum (micron)\n${rows.join('\n')}\nEnd of log: 7\n`);
  expect(long).toMatchObject({ inPart: true, map: { file: { until_line: 'End of log' } } });
  expect(long.preview[0]).toMatchObject({ tried: 1000, refused: 0 });
  const objects = rows.map((row) => JSON.stringify({ t_s: Number(row.split(',')[0]), vacuum_pa: 80 }));
  const json = await drafted('long.json', `{"job":{"id":"J-1"},"rows":[${objects.join(',')}]}`);
  expect(json.preview[0]).toMatchObject({
    tried: 1000,
    refused: 0,
    rows: Array(5).fill(expect.objectContaining({ job_id: 'J-1' })),
  });
});

test('refused rows are counted with the commonest reasons first', async () => {
  const draft = await drafted('log.csv', `${logText}10,700,1,2\n15\n20\n25,900000000\n30,600\n`);
  expect(draft.preview[0]).toMatchObject({ tried: 7, refused: 4 });
  expect(draft.preview[0].reasons.map(({ count, line }) => [count, line])).toEqual([
    [3, 4],
    [1, 7],
  ]);
});

test('the same file gives the same draft', async () => {
  expect(await drafted('log.csv', logText)).toEqual(await drafted('log.csv', logText));
});
