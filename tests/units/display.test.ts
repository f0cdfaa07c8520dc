import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  densityText,
  durationText,
  massText,
  psigOrAbsoluteBarText,
  riseRateText,
  temperatureText,
  vacuumText,
  volumeText,
  withoutUnit,
  yearlyLossText,
} from '../../src/units/display.ts';
import { parseQuantity } from '../../src/units/parse-quantity.ts';
import { toInterchange } from '../../src/units/unit.ts';

const gap = '\u00a0';

describe('vacuumText', () => {
  test.each([
    [500, '500 µm'],
    [0, '0 µm'],
    [0.5, '0.500 µm'],
    [9.996, '10.0 µm'],
    [99.94, '99.9 µm'],
    [99.96, '100 µm'],
    [100.4, '100 µm'],
    [999.6, `1${gap}000 µm`],
    [760_000, `760${gap}000 µm`],
    [-12, '−12.0 µm'],
    [-1200, `−1${gap}200 µm`],
  ])('%d µm: %s', (micron, text) => {
    expect(vacuumText(toInterchange(micron, 'micron'), 'ip')).toBe(text);
  });

  test.each([
    [0, '0 Pa'],
    [66.661184, '66.7 Pa'],
    [9.999, '10.0 Pa'],
    [99.96, '100 Pa'],
    [0.00001234, '0.000012 Pa'],
    [101_325, `101${gap}325 Pa`],
    [-3, '−3.00 Pa'],
  ])('%d Pa: %s', (pascal, text) => {
    expect(vacuumText(pascal, 'si')).toBe(text);
  });

  test('above the range of the gauge there is no number', () => {
    expect([vacuumText(Number.POSITIVE_INFINITY, 'ip'), vacuumText(Number.POSITIVE_INFINITY, 'si')]).toEqual([
      'over range',
      'over range',
    ]);
  });

  test('says the pressure to three figures or to the micron, whatever it is', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 200_000, noNaN: true }), (pressurePa) => {
        for (const [units, unitPa] of [
          ['ip', 0.133322368],
          ['si', 1],
        ] as const) {
          const shown = Number.parseFloat(vacuumText(pressurePa, units).replaceAll(gap, '')) * unitPa;
          expect(Math.abs(shown - pressurePa)).toBeLessThanOrEqual(0.00501 * pressurePa);
        }
      }),
      { seed: 5 },
    );
  });
});

describe('massText', () => {
  test.each([
    [0, '0.0 oz'],
    [3.5, '3.5 oz'],
    [15.94, '15.9 oz'],
    [15.96, '1 lb 0.0 oz'],
    [16, '1 lb 0.0 oz'],
    [31.97, '2 lb 0.0 oz'],
    [86, '5 lb 6.0 oz'],
    [-3.5, '−3.5 oz'],
    [-17.2, '−1 lb 1.2 oz'],
    [-0.01, '0.0 oz'],
    [160_000, `10${gap}000 lb 0.0 oz`],
  ])('%d oz: %s', (ounces, text) => {
    expect(massText(toInterchange(ounces, 'oz'), 'ip')).toBe(text);
  });

  test('15.95 oz is a tie; either side of it is right, half a pound of ounces is not', () => {
    expect(['15.9 oz', '1 lb 0.0 oz']).toContain(massText(toInterchange(15.95, 'oz'), 'ip'));
  });

  test.each([
    [0, '0 g'],
    [0.16, '160 g'],
    [0.9994, '999 g'],
    [0.9996, '1.000 kg'],
    [1.26, '1.260 kg'],
    [-0.16, '−160 g'],
    [-0.0004, '0 g'],
    [50_000, `50${gap}000.000 kg`],
  ])('%d kg: %s', (kg, text) => {
    expect(massText(kg, 'si')).toBe(text);
  });

  test('pounds and ounces add up to the mass, and there are never 16 ounces', () => {
    fc.assert(
      fc.property(fc.double({ min: -50, max: 50, noNaN: true }), (massKg) => {
        const [, sign, lb = '0', oz] = /^(−?)(?:(\d+) lb )?(\d+\.\d) oz$/.exec(massText(massKg, 'ip')) ?? [];
        expect(Number(oz)).toBeLessThan(16);
        const shownKg = (sign === '−' ? -1 : 1) * (Number(lb) * 0.45359237 + Number(oz) * 0.028349523125);
        expect(Math.abs(shownKg - massKg)).toBeLessThanOrEqual(0.0501 * 0.028349523125);
      }),
      { seed: 6 },
    );
  });
});

describe('durationText', () => {
  test.each([
    [0, '0 s'],
    [0.4, '0 s'],
    [-0.4, '0 s'],
    [59.6, '60 s'],
    [119.4, '119 s'],
    [119.6, '2 min'],
    [905, '15 min 5 s'],
    [7199.4, '119 min 59 s'],
    [7199.6, '2 h'],
    [9000, '2 h 30 min'],
    [-90, '−90 s'],
    [-300, '−5 min'],
    [86_400, '24 h'],
    [3.6e9, `1${gap}000${gap}000 h`],
  ])('%d s: %s', (seconds, text) => {
    expect(durationText(seconds)).toBe(text);
  });

  test('never 60 of anything, and within a minute of the truth', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 400_000, noNaN: true }), (seconds) => {
        const [, h, min, s] = /^(?:(\d+) h)? ?(?:(\d+) min)? ?(?:(\d+) s)?$/.exec(durationText(seconds)) ?? [];
        const shown = Number(h ?? 0) * 3600 + Number(min ?? 0) * 60 + Number(s ?? 0);
        expect(Math.abs(shown - seconds)).toBeLessThanOrEqual(h === undefined ? 0.5001 : 60);
        if (h !== undefined) expect(Number(min ?? 0)).toBeLessThan(60);
        if (min !== undefined) expect(Number(s ?? 0)).toBeLessThan(60);
      }),
      { seed: 7 },
    );
  });
});

describe('temperatureText', () => {
  test.each([
    [40, '40.0 °F', '4.4 °C'],
    [32, '32.0 °F', '0.0 °C'],
    [31.99, '32.0 °F', '0.0 °C'],
    [-40, '−40.0 °F', '−40.0 °C'],
    [-0.04, '0.0 °F', '−17.8 °C'],
    [1832, `1${gap}832.0 °F`, `1${gap}000.0 °C`],
  ])('%d °F: %s, %s', (fahrenheit, ip, si) => {
    const temperatureK = toInterchange(fahrenheit, 'F') + 273.15;
    expect([temperatureText(temperatureK, 'ip'), temperatureText(temperatureK, 'si')]).toEqual([ip, si]);
  });
});

describe('psigOrAbsoluteBarText', () => {
  // 1 atm = 14.696 psi; R-410A at 40 °F has some 133 psia, and shows some 118 psig at the sea and 121 psig at 5000 ft.
  test.each([
    [133.496, 101_325, '118.8 psig', '9.20 bar'],
    [133.496, 84_307, '121.3 psig', '9.20 bar'],
    [14.6959488, 101_325, '0.0 psig', '1.01 bar'],
    [14.69, 101_325, '0.0 psig', '1.01 bar'],
    [14.647, 101_325, '0.0 psig', '1.01 bar'],
    [14.645, 101_325, '0.1 inHg vacuum', '1.01 bar'],
    // 1 psi = 2.03602 inHg.
    [5, 101_325, '19.7 inHg vacuum', '0.34 bar'],
    [5, 84_307, '14.7 inHg vacuum', '0.34 bar'],
    [0, 101_325, '29.9 inHg vacuum', '0.00 bar'],
    [2000, 101_325, `1${gap}985.3 psig`, '137.90 bar'],
  ])('%d psia under %d Pa: %s, %s', (psia, atmospherePa, ip, si) => {
    const pressurePa = toInterchange(psia, 'psia');
    expect(psigOrAbsoluteBarText(pressurePa, atmospherePa, 'ip')).toBe(ip);
    expect(psigOrAbsoluteBarText(pressurePa, atmospherePa, 'si')).toBe(si);
  });

  test('what is shown can be read again, to the digits that it is shown with', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 5e6, noNaN: true }),
        fc.double({ min: 30_000, max: 115_000, noNaN: true }),
        fc.boolean(),
        (higherPa, atmospherePa, isVacuum) => {
          const pressurePa = isVacuum ? (higherPa / 5e6) * atmospherePa : higherPa;
          const text = psigOrAbsoluteBarText(pressurePa, atmospherePa, 'ip');
          const { gauge } = parseQuantity(text.replaceAll(gap, ''), ['gauge-pressure']);
          expect(text.endsWith(' psig')).toBe(pressurePa > atmospherePa - 0.05 * 6894.757293168);
          // Half of the last digit: 0.05 psi, or 0.05 inHg, which is less.
          expect(Math.abs(gauge.gaugePa + atmospherePa - pressurePa)).toBeLessThanOrEqual(0.0501 * 6894.757);
        },
      ),
      { seed: 8, numRuns: 500 },
    );
  });

  test('there is no gauge pressure below a perfect vacuum', () => {
    expect(() => psigOrAbsoluteBarText(-1, 101_325, 'ip')).toThrow('pressure [Pa] out of range: must be at least 0');
  });
});

describe('densityText', () => {
  // 1 lb/ft³ = 16.01846 kg/m³ (NIST SP 811).
  test.each([
    [989, '61.7 lb/ft³', '989 kg/m³'],
    [16.01846, '1.00 lb/ft³', '16.0 kg/m³'],
    [34.2, '2.14 lb/ft³', '34.2 kg/m³'],
    [1304.4, '81.4 lb/ft³', `1${gap}304 kg/m³`],
    [0, '0 lb/ft³', '0 kg/m³'],
  ])('%d kg/m³: %s, %s', (kgPerM3, ip, si) => {
    expect([densityText(kgPerM3, 'ip'), densityText(kgPerM3, 'si')]).toEqual([ip, si]);
  });
});

describe('riseRateText', () => {
  test.each([
    [0, '0 µm/min', '0 Pa/min'],
    [1, '1.00 µm/min', '0.133 Pa/min'],
    [0.001, '0.00100 µm/min', '0.000133 Pa/min'],
    [37.51, '37.5 µm/min', '5.00 Pa/min'],
    [12_345, `12${gap}345 µm/min`, `1${gap}646 Pa/min`],
  ])('%d µm in a minute: %s, %s', (micronPerMin, ip, si) => {
    const paPerS = toInterchange(micronPerMin, 'micron') / 60;
    expect([riseRateText(paPerS, 'ip'), riseRateText(paPerS, 'si')]).toEqual([ip, si]);
  });
});

test('withoutUnit drops the unit alone, not the thousands set apart', () => {
  expect(withoutUnit('27.58 bar gauge')).toBe('27.58');
  expect(withoutUnit('14.8 inHg vacuum')).toBe('14.8');
  const texts = [vacuumText(66.661184, 'ip'), vacuumText(2505, 'ip'), riseRateText(0.0133322368, 'si')];
  expect(texts.map(withoutUnit)).toEqual(['500', `18${gap}789`, '0.800']);
});

describe('yearlyLossText', () => {
  // 1 oz = 28.349523125 g, 16 oz a pound.
  test.each([
    [0, '0 oz', '0 g'],
    [0.01, 'under 0.001 oz', '0.010 g'],
    [0.000_05, 'under 0.001 oz', 'under 0.001 g'],
    [3, '0.11 oz', '3.0 g'],
    [123, '4.3 oz', '120 g'],
    [440, '16 oz', '440 g'],
    [452, '1.0 lb', '450 g'],
    [996, '2.2 lb', '1.0 kg'],
    [18_430, '41 lb', '18 kg'],
    [1_843_000, `4${gap}100 lb`, `1${gap}800 kg`],
  ])('%d g a year: %s, %s', (gramPerYear, ip, si) => {
    expect([yearlyLossText(gramPerYear / 1000, 'ip'), yearlyLossText(gramPerYear / 1000, 'si')]).toEqual([ip, si]);
  });

  test('within 5 % of what is meant, and never in exponents', () => {
    fc.assert(
      fc.property(fc.double({ min: -2.5, max: 8, noNaN: true }), (exponent) => {
        const kgPerYear = 10 ** exponent / 1000;
        for (const [units, sizes] of [
          ['ip', { oz: 0.028349523125, lb: 0.45359237 }],
          ['si', { g: 0.001, kg: 1 }],
        ] as const) {
          const [, digits = '', unit = ''] =
            /^([\d.]+) (\w+)$/.exec(yearlyLossText(kgPerYear, units).replaceAll(gap, '')) ?? [];
          const shown = Number(digits) * (sizes as Record<string, number>)[unit];
          if (kgPerYear > 0.001 * 0.0284) expect(Math.abs(shown / kgPerYear - 1)).toBeLessThanOrEqual(0.0501);
        }
      }),
      { seed: 9 },
    );
  });
});

describe('volumeText', () => {
  // 1 ft³ = 28.316846592 L, by definition of the foot.
  test.each([
    [28.316846592, '1.00 ft³', '28.3 L'],
    [5, '0.177 ft³', '5.00 L'],
    [0, '0 ft³', '0 L'],
    [2000, '70.6 ft³', `2${gap}000 L`],
  ])('%d L: %s, %s', (volumeL, ip, si) => {
    expect([volumeText(volumeL, 'ip'), volumeText(volumeL, 'si')]).toEqual([ip, si]);
  });
});
