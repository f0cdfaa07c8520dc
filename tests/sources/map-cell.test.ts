import { describe, expect, test } from 'vitest';
import { type Given, nearly, one, readAll } from './read-cells.ts';

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
    ['gauge', {}, [1n, 2n], '[1,2]'],
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
