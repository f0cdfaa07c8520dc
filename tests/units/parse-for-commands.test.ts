import { describe, expect, test } from 'vitest';
import { standardAtmosphere } from '../../src/physics/index.ts';
import { jobs } from '../../src/records/tables/jobs.ts';
import { absolutePressure } from '../../src/units/gauge-pressure.ts';
import { parseAltitude } from '../../src/units/parse-altitude.ts';
import { parseBarometer } from '../../src/units/parse-barometer.ts';
import { parseQuantity } from '../../src/units/parse-quantity.ts';
import { parseTemperatureOrPressure } from '../../src/units/parse-temperature-or-pressure.ts';
import { anyUnitNames } from '../../src/units/unit-words.ts';

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
    // 84307 Pa (ISO 2533) at 3386.389 Pa an inch are 24.8958 inHg.
    expect(() => atAltitude('29 inHg vacuum', '5000 ft')).toThrow(
      'gauge pressure [inHgv] out of range: must be at most 24.895 (a perfect vacuum under this atmosphere), received 29',
    );
  });

  test('says what it takes', () => {
    expect(() => parseTemperatureOrPressure('5 oz')).toThrow(
      'cannot read "5 oz": oz measures a mass; ' +
        'wanted: a temperature or a pressure, such as 40F, 4.5 C, 118 psig, 133 psia, 8.2 bar (absolute) or 250 micron',
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

  test('has the limits of the standard atmosphere, just inside and just outside', () => {
    for (const [text, inside] of [
      ['-2000 m', true],
      ['-2000.1 m', false],
      ['11000 m', true],
      ['11000.1 m', false],
      ['36089 ft', true],
      ['36090 ft', false],
    ] as const) {
      const altitudeM = parseQuantity(text, ['length']).lengthM;
      if (inside) expect(standardAtmosphere(parseAltitude(text))).toBeGreaterThan(0);
      else {
        expect(() => standardAtmosphere(altitudeM)).toThrow(/^altitude \[m\] out of range/);
        expect(() => parseAltitude(text)).toThrow(/^altitude \[(m|ft)\] out of range/);
      }
    }
  });

  test('says its limits in the unit that was written', () => {
    // 1 ft = 0.3048 m: -2000 m are -6561.68 ft, 11000 m 36089.24 ft.
    expect(() => parseAltitude('99999ft')).toThrow(
      'altitude [ft] out of range: must be -6561.6 to 36089, received 99999',
    );
    expect(() => parseAltitude('50,000 ft')).toThrow('write 50000 ft or 50.000 ft');
    expect(() => parseAltitude('12000 m')).toThrow('altitude [m] out of range: must be -2000 to 11000, received 12000');
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
    expect(() => parseBarometer(text)).toThrow(
      /; wanted: the pressure of the air, such as 24.9 inHg, 843 hPa, 84.3 kPa or 12.2 psia$/,
    );
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
      else
        expect(() => parseBarometer(text)).toThrow(
          /^barometer \[[kh]Pa\] out of range: must be (30 to 115|300 to 1150), /,
        );
    }
  });

  test('says its limits in the unit that was written', () => {
    // 1 inHg = 3386.389 Pa: 30000 Pa are 8.85899 inHg, 115000 Pa 33.9595 inHg; 1 psi = 6894.757 Pa: 4.35114 and 16.6793 psi.
    expect(() => parseBarometer('60 inHg')).toThrow(
      'barometer [inHga] out of range: must be 8.859 to 33.959, received 60',
    );
    expect(() => parseBarometer('3 psi')).toThrow(
      'barometer [psia] out of range: must be 4.3512 to 16.679, received 3',
    );
  });

  test('whatever a message says is within the limits, is', () => {
    let told = 0;
    for (const unit of anyUnitNames) {
      for (const parse of [parseAltitude, parseBarometer]) {
        try {
          parse(`99999999999 ${unit}`);
        } catch (error) {
          const [, lowest, highest] = /must be (\S+) to (\S+),/.exec((error as Error).message) ?? [];
          if (lowest === undefined) continue;
          expect(parse(`${lowest} ${unit}`)).toBeLessThan(parse(`${highest} ${unit}`));
          told += 1;
        }
      }
    }
    // Four units of length, eleven of absolute pressure.
    expect(told).toBe(15);
  });
});
