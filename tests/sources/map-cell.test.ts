import { describe, expect, test } from 'vitest';
import { cellReader, type CellValue, type MappedFile } from '../../src/sources/map-cell.ts';
import { parseSourceMap } from '../../src/sources/parse-source-map.ts';
import type { MapCell, SourceMap } from '../../src/sources/source-map.ts';

interface Given {
  /** Words of the map beside its rows. */
  readonly map?: object;
  readonly columns?: readonly string[];
  readonly units?: readonly string[];
  readonly head?: Record<string, unknown>;
  readonly path?: string;
  readonly table?: string;
  /** Rows as objects, of files that nest. */
  readonly nested?: boolean;
}

const alone = (map: object): SourceMap =>
  parseSourceMap(
    JSON.stringify({ name: 'm', rows: [{ table: 'people', columns: { technician_id: { constant: 'x' } } }], ...map }),
    'map.json',
  );

/** What a cell of a map reads from rows, one after the other. */
function readAll(name: string, cell: object, rows: readonly unknown[], given: Given = {}): unknown[] {
  const file: MappedFile = {
    map: alone(given.map ?? {}),
    mapPath: 'map.json',
    path: given.path ?? 'log.csv',
    columns: given.columns ?? ['a', 'b', 'c'],
    ...(given.units === undefined ? {} : { units: given.units }),
    nested: given.nested ?? false,
    head: new Map(Object.entries(given.head ?? {})),
    starts: new Map(),
    clocks: new Map(),
  };
  const read = cellReader(file, given.table ?? 'readings', name, cell as MapCell, 'where');
  const shown = (value: CellValue) => ('problem' in value ? `! ${value.problem}` : value.value);
  return rows.map((row) =>
    shown(
      read(
        given.nested
          ? { line: 1, cells: undefined, around: [row], raw: () => '' }
          : { line: 1, cells: row as [], raw: () => '' },
        'J',
      ),
    ),
  );
}

const one = (name: string, cell: object, value: unknown, given: Given = {}) => readAll(name, cell, [[value]], given)[0];
const nearly = (value: number) => expect.closeTo(value, 7) as unknown;

describe('numbers with marks', () => {
  const file = (decimal: string, thousands?: string) => ({
    map: { file: { decimal, ...(thousands === undefined ? {} : { thousands }) } },
  });
  test.each<[string, string | undefined, string, number]>([
    ['.', undefined, ' 12.5 ', 12.5],
    ['.', undefined, '-1e-3', -0.001],
    ['.', ',', '1,250.5', 1250.5],
    ['.', ',', '12,345,678', 12_345_678],
    ['.', ',', '-1,250', -1250],
    ['.', ',', '950', 950],
    ['.', ' ', '12 500', 12_500],
    ['.', ' ', '12\u00a0500', 12_500],
    ['.', ' ', '12\u202f500.25', 12_500.25],
    ['.', "'", "1'000.5", 1000.5],
    ['.', "'", '1\u2019000', 1000],
    [',', undefined, '66,7', 66.7],
    [',', '.', '1.500,5', 1500.5],
    [',', '.', '1.500', 1500],
    [',', ' ', '1 500,25', 1500.25],
  ])('%s and %s: %s', (decimal, thousands, text, value) => {
    expect(one('suction_pa', { column: 1 }, text, file(decimal, thousands))).toBe(value);
  });

  test.each<[string, string | undefined, string]>([
    ['.', undefined, '66,7'],
    ['.', undefined, '1 250'],
    ['.', ',', '1,25'],
    ['.', ',', '12,50.5'],
    ['.', ',', '1,250,5'],
    ['.', ',', '1,2500'],
    ['.', ',', '1234,567'],
    [',', undefined, '66.7'],
    [',', '.', '66.7'],
    [',', '.', '1.250.5'],
    [',', ' ', '1.5'],
    [',', undefined, '1,2,3'],
    ['.', undefined, 'wet'],
    ['.', undefined, '0x10'],
  ])('%s and %s: %s is no number', (decimal, thousands, text) => {
    expect(one('suction_pa', { column: 1 }, text, file(decimal, thousands))).toBe(
      `! not a number: ${JSON.stringify(text)}`,
    );
  });
});

describe('words and ranges', () => {
  const map = { null_words: ['--', '-999'], over_words: ['beyond', '9999'] };
  test.each<[string, object, unknown, unknown]>([
    ['vacuum_pa', {}, '', undefined],
    ['vacuum_pa', {}, undefined, undefined],
    ['vacuum_pa', {}, null, undefined],
    ['vacuum_pa', {}, ' -- ', undefined],
    // Typed files say by a number what text says by a word.
    ['vacuum_pa', {}, -999, undefined],
    ['vacuum_pa', {}, 9999, 'over'],
    ['vacuum_pa', {}, Number.POSITIVE_INFINITY, 'over'],
    ['vacuum_pa', {}, 500n, 500],
    ['vacuum_pa', {}, 'beyond', 'over'],
    ['vacuum_pa', {}, 'over', 'over'],
    ['suction_pa', {}, 'beyond', '! not a number: "beyond"'],
    ['suction_pa', {}, Number.POSITIVE_INFINITY, '! not a number: "Infinity"'],
    ['vacuum_pa', { over_from: 20, unit: 'kPa' }, '20', 'over'],
    ['vacuum_pa', { over_from: 20, unit: 'kPa' }, '19.5', 19_500],
    ['vacuum_pa', { words: { dry: 10, off: null, top: 'over' } }, 'dry', 10],
    ['vacuum_pa', { words: { dry: 10, off: null, top: 'over' } }, 'off', undefined],
    ['vacuum_pa', { words: { dry: 10, off: null, top: 'over' } }, 'top', 'over'],
    ['vacuum_pa', { words: { dry: 10 } }, '5', 5],
    ['run_mode', { words: { 1: 'cooling', 2: 'heating' } }, 2, 'heating'],
    ['run_mode', { words: { cool: 'cooling' } }, 'toString', 'toString'],
    ['gauge', {}, 7n, '7'],
    ['gauge', {}, 'over', 'over'],
  ])('%s %j: %s', (name, cell, value, read) => {
    expect(one(name, { column: 1, ...cell }, value, { map })).toBe(read);
  });

  test('flags by words', () => {
    const cell = { column: 1, words: { ja: true, nein: false, 0: false } };
    expect(readAll('opened_circuit', cell, [['ja'], ['nein'], [0]], { table: 'jobs' })).toEqual([true, false, false]);
  });

  test('a number that JSON spells and a double cannot hold stays wrong', () => {
    expect(readAll('vacuum_pa', { column: 'v' }, [JSON.parse('{"v":1e400}')], { nested: true })).toEqual([
      '! not a number: "Infinity"',
    ]);
  });
});

describe('cuts', () => {
  test.each<[object, string, unknown]>([
    [{ before: '_' }, 'W-301_east', 'W-301'],
    [{ after: '_' }, 'leaf_W-301_east', 'W-301_east'],
    [{ after: '_', before: '_' }, 'leaf_W-301_east', 'W-301'],
    [{ after: 'job ', before: ' (' }, 'job W-301 (east)', 'W-301'],
    [{ before: '_' }, 'W-301', 'W-301'],
    [{ after: '_' }, 'W-301', undefined],
    [{ before: '_' }, '_x', undefined],
    [{ after: '_', words: { east: 'E' } }, 'x_east', 'E'],
  ])('%j of %s', (cut, text, read) => {
    expect(one('gauge', { column: 1, ...cut }, text)).toBe(read);
    expect(one('gauge', { file_name: true, ...cut }, '', { path: `logs/${text}.csv` })).toBe(read);
  });

  test('the unit that stands behind a number', () => {
    expect(one('suction_pa', { column: 1, before: ' ', unit: 'kPa' }, '850.5 kPa')).toBe(850_500);
  });
});

describe('units', () => {
  test.each<[string, string, string, number]>([
    ['vacuum_pa', 'micron', '500', 66.661184],
    ['vacuum_pa', 'Torr', '0.5', 66.661184],
    ['vacuum_pa', 'mbar', '0.5', 50],
    ['suction_pa', 'psia', '100', 689_475.7293168],
    ['line_c', 'F', '212', 100],
    ['line_c', 'K', '273.15', 0],
    ['scale_kg', 'lb', '2', 0.90718474],
    ['scale_kg', 'oz', '16', 0.45359237],
    ['elapsed_s', 'min', '1.5', 90],
  ])('%s in %s', (name, unit, text, value) => {
    expect(one(name, { column: 1, unit }, text)).toEqual(nearly(value));
  });

  test('behind the name of the column, and below it', () => {
    const columns = ['Deep (µm)', 'Pipe'];
    expect(readAll('vacuum_pa', { column: 'Deep', unit: 'in header' }, [['500']], { columns })).toEqual([
      nearly(66.661184),
    ]);
    expect(
      readAll('line_c', { column: 'Pipe', unit: 'in unit row' }, [['', '50']], { columns, units: ['', '°F'] }),
    ).toEqual([nearly(10)]);
    expect(() => readAll('line_c', { column: 'Pipe', unit: 'in header' }, [], { columns })).toThrow(
      'tells no unit for column 2',
    );
  });

  // ISO 2533: 101325 Pa at the sea, 89874.6 Pa at 1000 m.
  const sea = { map: { site: { altitude_m: { constant: 0 } } } };
  const high = { map: { site: { altitude_m: { column: 'c' } } } };
  test('gauge pressures count from the air at an altitude', () => {
    expect(one('suction_pa', { column: 1, unit: 'psig' }, '100', sea)).toEqual(nearly(689_475.7293168 + 101_325));
    expect(one('suction_pa', { column: 1, unit: 'barg' }, '-0.5', sea)).toEqual(nearly(51_325));
    expect(one('suction_pa', { column: 1, unit: 'kPag' }, '0', sea)).toBe(101_325);
    const rows = [
      ['0', '', '1000'],
      ['0', '', ''],
      ['0', '', '9000'],
      ['0', '', 'up'],
      ['', '', ''],
    ];
    const [at, ...wrong] = readAll('suction_pa', { column: 'a', unit: 'psig' }, rows, high);
    expect((at as number) / 89_874.6).toBeCloseTo(1, 5);
    expect(wrong).toEqual([
      '! a pressure in psig counts from the air around the gauge, and the file does not say how high the site is',
      '! no site lies at 9000 m',
      '! not a number: "up"',
      undefined,
    ]);
  });

  test('an altitude in feet, once in the file', () => {
    const given = {
      map: { head: { h: { line: 1 } }, site: { altitude_m: { head: 'h', unit: 'ft' } } },
      head: { h: '3280.84' },
    };
    expect((one('suction_pa', { column: 1, unit: 'psig' }, '0', given) as number) / 89_874.6).toBeCloseTo(1, 5);
  });

  test('and from a barometer', () => {
    const given = { map: { site: { barometer_pa: { column: 'b', unit: 'inHga' } } } };
    const rows = [
      ['20', '25'],
      ['26', '25'],
    ];
    expect(readAll('suction_pa', { column: 'a', unit: 'inHgv' }, rows, given)).toEqual([
      // 1 inHg is 3386.388640 Pa: 25.4 mm of 13595.1 kg/m³ under 9.80665 m/s².
      nearly(5 * 3386.388640341),
      '! 26 inHgv is below a perfect vacuum',
    ]);
  });

  test('a constant in a gauge unit', () => {
    expect(one('test_pressure_target_pa', { constant: 300, unit: 'psig' }, '', { ...sea, table: 'jobs' })).toEqual(
      nearly(2_169_752.1879504),
    );
  });
});

describe('several cells', () => {
  const pounds = { column: 'a', unit: 'lb' };
  const ounces = { column: 'b', unit: 'oz' };
  test.each<[object, unknown[], unknown]>([
    [{ sum: [pounds, ounces] }, ['1', '8'], nearly(0.680388555)],
    [{ sum: [pounds, ounces] }, ['1', ''], undefined],
    [{ sum: [pounds, ounces] }, ['1', 'some'], '! not a number: "some"'],
    [{ sum: [{ column: 'a' }, { column: 'b' }, { constant: 3 }] }, ['1', '2'], 6],
    [{ difference: [pounds, { column: 'b', unit: 'lb' }] }, ['25', '1.5'], nearly(23.5 * 0.45359237)],
    [{ difference: [{ column: 'a' }, { constant: 5 }] }, ['', ''], undefined],
  ])('%j of %j', (cell, row, value) => {
    expect(readAll('scale_kg', cell, [row])).toEqual([value]);
  });

  test('what is above the range has no sum', () => {
    expect(readAll('vacuum_pa', { sum: [{ column: 'a' }, { constant: 1 }] }, [['over']])).toEqual([
      '! a value above the range cannot be part of a sum or a difference',
    ]);
  });

  test.each<[object, unknown[], unknown]>([
    [{ join: [{ column: 'a' }, { column: 'b' }], with: '-' }, ['x', 'y'], 'x-y'],
    [{ join: [{ column: 'a' }, { column: 'b' }], with: '-' }, ['', 'y'], 'y'],
    [{ join: [{ column: 'a' }, { column: 'b' }] }, ['', ''], undefined],
    [{ join: [{ constant: 'k' }, { file_name: true, before: '.' }, { head: 'h' }], with: '/' }, [], 'k/log/7'],
    [{ join: [{ column: 'a' }, { column: 'b' }], with: '', words: { xy: 'both' } }, ['x', 'y'], 'both'],
    [{ join: [{ column: 'a' }], words: { x: null } }, ['x'], undefined],
  ])('%j of %j', (cell, row, value) => {
    expect(readAll('gauge', cell, [row], { head: { h: 7 } })).toEqual([value]);
  });
});

describe('times', () => {
  const zone = { map: { time_zone: 'America/Denver' } };
  test.each<[string, object, string, string, Given]>([
    ['started_at', { time: 'local' }, '2026-03-05 08:15:00', '2026-03-05T08:15:00-07:00', zone],
    ['started_at', { time: 'local' }, '2026-03-05T08:15:00+01:00', '2026-03-05T00:15:00-07:00', zone],
    ['started_at', { time: 'local' }, '2026-03-05 08:15:00 +0100', '2026-03-05T08:15:00+01:00', {}],
    [
      'started_at',
      { time: 'local' },
      '2026-03-05 08:15:00',
      '! "2026-03-05 08:15:00" has no offset, and the map no "time_zone"',
      {},
    ],
    ['started_at', { time: 'epoch_s' }, '1772800000', '2026-03-06T05:26:40-07:00', zone],
    ['started_at', { time: 'epoch_ms' }, '1772800000250', '2026-03-06T12:26:40.250Z', {}],
    ['started_at', { time: 'spreadsheet' }, '46087.5', '2026-03-06T12:00:00-07:00', zone],
    ['started_at', { time: { format: 'd/M/yyyy H:mm' } }, '5/7/2026 8:15', '2026-07-05T08:15:00-06:00', zone],
    [
      'started_at',
      { time: { format: 'yyyy-MM-dd HH:mm ZZ' } },
      '2026-03-05 08:15 +01:00',
      '2026-03-05T00:15:00-07:00',
      zone,
    ],
    ['hired_on', { time: { format: 'dd.MM.yyyy' } }, '05.03.2026', '2026-03-05', {}],
    ['hired_on', { time: 'local' }, '2026-03-05', '2026-03-05', zone],
    ['hired_on', { time: 'local' }, '2026-03-05T23:30:00Z', '2026-03-05', zone],
    ['hired_on', { time: 'spreadsheet' }, '46087', '2026-03-06', zone],
  ])('%s %j: %s', (name, cell, text, value, given) => {
    const table = name === 'hired_on' ? 'people' : 'jobs';
    expect(one(name, { column: 1, ...cell }, text, { ...given, table })).toBe(value);
  });

  test('seconds since the log began', () => {
    const rows = (...texts: string[]) => texts.map((text) => [text]);
    expect(readAll('elapsed_s', { column: 1, time: 'clock' }, rows('23:59:50', '00:00:10', '', 'soon'))).toEqual([
      0,
      20,
      '! not a time of day hh:mm:ss: ""',
      '! not a time of day hh:mm:ss: "soon"',
    ]);
    expect(readAll('elapsed_s', { column: 1, time: 'elapsed' }, rows('0:30', '1:00:00', ''))).toEqual([
      30,
      3600,
      undefined,
    ]);
    expect(
      readAll('elapsed_s', { column: 1, time: 'local' }, rows('2026-03-08 01:59:30', '2026-03-08 03:00:30'), zone),
    ).toEqual([0, 60]);
  });

  test('the date stays the file’s while midnight passes', () => {
    const cell = { join: [{ head: 'day' }, { column: 1 }], with: ' ', time: 'local' };
    const rows = [['23:58:30'], ['00:00:15'], ['02:30:00']];
    expect(readAll('elapsed_s', cell, rows, { ...zone, head: { day: '2026-10-30' } })).toEqual([0, 105, 9090]);
  });
});

test('rows that nest are read by paths', () => {
  const row = { pa: { deep: [5, 'over'] }, flag: true, none: null, list: [1, 2] };
  const of = (name: string, column: string) => readAll(name, { column }, [row], { nested: true })[0];
  expect([
    of('vacuum_pa', 'pa.deep.0'),
    of('vacuum_pa', 'pa.deep.1'),
    of('vacuum_pa', 'none'),
    of('vacuum_pa', 'no.where'),
  ]).toEqual([5, 'over', undefined, undefined]);
  expect([of('gauge', 'flag'), of('gauge', 'list')]).toEqual(['true', '[1,2]']);
});
