import { describe, expect, test } from 'vitest';
import { standardAtmosphere } from '../../src/physics/index.ts';
import { jobs } from '../../src/records/tables/jobs.ts';
import { absolutePressure } from '../../src/units/gauge-pressure.ts';
import { parseAltitude } from '../../src/units/parse-altitude.ts';
import { parseBarometer } from '../../src/units/parse-barometer.ts';
import { parseTemperatureOrPressure } from '../../src/units/parse-temperature-or-pressure.ts';

describe('parseTemperatureOrPressure', () => {
  test('the kinds can be told apart, and a gauge pressure meets the atmosphere of an altitude', () => {
    const atAltitude = (text: string, altitude: string) => {
      const quantity = parseTemperatureOrPressure(text);
      switch (quantity.kind) {
        case 'temperature':
          return quantity.temperatureK;
        case 'absolute-pressure':
          return quantity.pressurePa;
        case 'gauge-pressure':
          return absolutePressure(quantity.gauge, standardAtmosphere(parseAltitude(altitude)));
      }
    };
    expect(atAltitude('4.4C', '5000 ft')).toBeCloseTo(277.55, 9);
    expect(atAltitude('9.2 bar', '5000 ft')).toBeCloseTo(920_000, 6);
    // 118 psig: 132.7 psia at sea level, 130.2 psia at 5000 ft, where the air has some 12.2 psia (common practice, no source).
    expect((atAltitude('118 psig', '0 m') ?? 0) / 6894.757).toBeCloseTo(132.7, 1);
    expect((atAltitude('118 psig', '5000 ft') ?? 0) / 6894.757).toBeCloseTo(130.2, 1);
    expect(() => atAltitude('29 inHg vacuum', '5000 ft')).toThrow(/perfect vacuum/);
  });

  test('says what it takes', () => {
    expect(() => parseTemperatureOrPressure('5 lb')).toThrow(
      'cannot read "5 lb": lb measures a mass; ' +
        'wanted: a temperature or a pressure, such as 40F, 4.5 C, 118 psig or 8.2 bar (absolute)',
    );
  });
});

describe('parseAltitude', () => {
  test('feet and metres, also under sea level', () => {
    expect(['5000 ft', '1500 m', '-430m', '\u2212100 ft'].map(parseAltitude)).toEqual([
      1524,
      1500,
      -430,
      expect.closeTo(-30.48, 9),
    ]);
  });

  test.each(['5000', '5,000 ft', '5000 psig', 'high'])('"%s" is refused with an example', (text) => {
    expect(() => parseAltitude(text)).toThrow(/; wanted: an altitude, such as 5000 ft or 1500 m$/);
  });
});

describe('parseBarometer', () => {
  // 1 inHg = 3386.389 Pa, 1 psi = 6894.757 Pa (NIST SP 811), 760 mmHg = 101325 Pa.
  test.each([
    ['24.9 inHg', 24.9 * 3386.389],
    ['24.9 in Hg', 24.9 * 3386.389],
    ['29.92 inHga', 29.92 * 3386.389],
    ['843 hPa', 84_300],
    ['843 mbar', 84_300],
    ['632 mmHg', (632 * 101_325) / 760],
    ['12.2 psi', 12.2 * 6894.757],
    ['101.325kPa', 101_325],
  ])('%s is %d Pa', (text, pressurePa) => {
    expect(Math.abs(parseBarometer(text) - pressurePa)).toBeLessThanOrEqual(2e-7 * pressurePa);
  });

  test.each(['29.9 inHg vacuum', '12.2 psig', '0 kPag', '40F', '1013'])('"%s" is no barometer', (text) => {
    expect(() => parseBarometer(text)).toThrow(/; wanted: the pressure of the air, such as 24.9 inHg or 843 hPa$/);
  });

  test('has the limits of the record, just inside and just outside', () => {
    const barometer = jobs.schema.shape.barometer_pa;
    for (const [text, pressurePa, inside] of [
      ['30 kPa', 30_000, true],
      ['29.9 kPa', 29_900, false],
      ['1150 hPa', 115_000, true],
      ['1151 hPa', 115_100, false],
    ] as const) {
      expect(barometer.safeParse(pressurePa).success).toBe(inside);
      if (inside) expect(parseBarometer(text)).toBeCloseTo(pressurePa, 6);
      else expect(() => parseBarometer(text)).toThrow(/^barometer \[Pa\] out of range: must be 30000 to 115000, /);
    }
  });
});
