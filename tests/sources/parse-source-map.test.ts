import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { dimensionOfColumn, parseSourceMap, readSourceMap, simpleParts } from '../../src/sources/parse-source-map.ts';
import { tempFolder, writeFiles } from '../store/temp-store.ts';
import { jobs, needed, readings, wrongMaps } from './wrong-maps.ts';

describe('a map that is wrong is refused with its place and the reason', () => {
  test.each(wrongMaps)('%s', (_, map, where, problem) => {
    const parse = () => parseSourceMap(JSON.stringify({ name: 'm', ...map }), 'map.json');
    expect(parse).toThrow(`map.json: source map is wrong at ${where}: ${problem}`);
    expect(parse).toThrow(expect.objectContaining({ code: 'map-invalid', exitStatus: 3 }) as Error);
  });

  test('broken JSON, and a file that is not there', () => {
    expect(() => parseSourceMap('{"name": "m",', 'map.json')).toThrow(
      'map.json: source map is wrong at the whole file: ',
    );
    expect(() => parseSourceMap('[]', 'map.json')).toThrow('source map is wrong at the top: ');
    expect(() => readSourceMap(join(tempFolder(), 'none.json'))).toThrow('no such file or folder');
  });
});

describe('a map that is right', () => {
  test('what it leaves out has its usual value; a byte order mark does not count', () => {
    const folder = writeFiles(tempFolder(), { 'map.json': `\uFEFF${JSON.stringify({ name: 'm', rows: readings() })}` });
    expect(readSourceMap(join(folder, 'map.json'))).toEqual({
      name: 'm',
      file: {
        delimiter: ',',
        quote: '"',
        decimal: '.',
        skip_lines: 0,
        header: true,
        unit_row: false,
        skip_after_header: 0,
      },
      head: {},
      null_words: [],
      over_words: [],
      rows: [{ table: 'readings', once: false, columns: needed }],
    });
  });

  test.each<[string, object]>([
    ['zones', { rows: readings(), time_zone: '-07:00' }],
    ['UTC', { rows: readings(), time_zone: 'UTC' }],
    ['a constant in a unit is judged once it is ours', { rows: readings({ line_c: { constant: 900, unit: 'K' } }) }],
    ['a word for above the range', { rows: readings({ vacuum_pa: { constant: 'over' } }) }],
    [
      'a pattern that tells its offset',
      { rows: jobs({ ended_at: { column: 'a', time: { format: 'yyyy-MM-dd HH:mm ZZ' } } }) },
    ],
    ['local times may tell theirs', { rows: jobs({ ended_at: { column: 'a', time: 'local' } }) }],
    ['how long something took', { rows: jobs({ rise_test_s: { column: 'a', time: 'elapsed' } }) }],
    [
      'a day needs no zone',
      {
        rows: [
          {
            table: 'people',
            columns: { technician_id: { column: 'a' }, hired_on: { column: 'b', time: 'spreadsheet' } },
          },
        ],
      },
    ],
    [
      'gauge units with a site',
      {
        rows: readings({ suction_pa: { column: 'a', unit: 'psig' } }),
        site: { altitude_m: { constant: 5280, unit: 'ft' } },
      },
    ],
  ])('%s', (_, map) => {
    expect(() => parseSourceMap(JSON.stringify({ name: 'm', ...map }), 'map.json')).not.toThrow();
  });

  test('what cells are made of, and what columns measure', () => {
    const [a, b] = [{ column: 'a' }, { column: 'b' }];
    expect(
      [a, { join: [a, b], with: '' }, { sum: [a, b] }, { difference: [a, b] as [typeof a, typeof b] }].map(simpleParts),
    ).toEqual([[a], [a, b], [a, b], [a, b]]);
    expect(['Pa', '°C', 'kg', 'm', 'mm', 's', 'L', 'W', 'L/s', 'K', undefined].map(dimensionOfColumn)).toEqual([
      'pressure',
      'temperature',
      'mass',
      'length',
      'bore',
      'time',
      'volume',
      'power',
      'flow',
      'none',
      'none',
    ]);
  });
});
