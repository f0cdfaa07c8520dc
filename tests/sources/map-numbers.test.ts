import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nearly, one, readAll } from './read-cells.ts';

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
      // Within what the air differs from day to day: as deep as a vacuum gets.
      ['25.7', '25'],
    ];
    expect(readAll('suction_pa', { column: 'a', unit: 'inHgv' }, rows, given)).toEqual([
      // 1 inHg is 3386.388640 Pa: 25.4 mm of 13595.1 kg/m³ under 9.80665 m/s².
      nearly(5 * 3386.388640341),
      '! 26 inHgv is below a perfect vacuum',
      0,
    ]);
  });

  test('a constant in a gauge unit', () => {
    expect(one('test_pressure_target_pa', { constant: 300, unit: 'psig' }, '', { ...sea, table: 'jobs' })).toEqual(
      nearly(2_169_752.1879504),
    );
  });
});

test('any number that is written with marks reads as it is', () => {
  const marks = fc.constantFrom<[string, string]>(
    ['.', ','],
    ['.', ' '],
    ['.', "'"],
    [',', '.'],
    [',', ' '],
    [',', "'"],
  );
  fc.assert(
    fc.property(
      marks,
      fc.integer({ min: -1e12, max: 1e12 }),
      fc.nat(999),
      ([decimal, thousands], whole, thousandths) => {
        const grouped = String(whole).replaceAll(/\B(?=(\d{3})+$)/g, thousands);
        const text = `${grouped}${decimal}${String(thousandths).padStart(3, '0')}`;
        const value = Number(`${whole}.${String(thousandths).padStart(3, '0')}`);
        expect(one('suction_pa', { column: 1 }, text, { map: { file: { decimal, thousands } } })).toBe(value);
      },
    ),
  );
});
