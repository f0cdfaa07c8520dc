import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  dimensionOf,
  fromInterchange,
  isUnitName,
  toInterchange,
  type UnitName,
  unitNames,
} from '../../src/units/unit.ts';

describe('units', () => {
  // Exact by definition: inch 25.4 mm, foot 0.3048 m, pound 0.45359237 kg and 16 oz, psi = lbf/in² with g = 9.80665 m/s²,
  // cfm = ft³/min; µm of mercury at 0 °C 0.133322368 Pa (standards.md carries 0.133322368, and 1 mbar = 750.062 µm).
  test.each([
    [1, 'in', 25.4],
    [1, 'ft', 0.3048],
    [16, 'oz', 0.45359237],
    [1, 'lb', 0.45359237],
    [1, 'psia', (0.45359237 * 9.80665) / 0.0254 ** 2],
    [1, 'cfm', (0.3048 ** 3 * 1000) / 60],
    [1, 'ft3', 0.3048 ** 3 * 1000],
    [750.0616, 'micron', 100],
    [760, 'Torr', 101325.0],
    [1, 'inHga', 0.0254 * 13595.1 * 9.80665],
    [1, 'bar', 100000],
    [1, 'mbar', 100],
    [1013.25, 'hPa', 101325],
    [32, 'F', 0],
    [212, 'F', 100],
    [-40, 'F', -40],
    [273.15, 'K', 0],
    [90, 'min', 5400],
    [1500, 'ms', 1.5],
    [2.5, 'kW', 2500],
  ] as const)('%d %s', (value, unit, expected) => {
    expect(Math.abs(toInterchange(value, unit) - expected)).toBeLessThanOrEqual(1e-6 * Math.max(1, Math.abs(expected)));
  });

  test('there and back again is the same number, for every unit', () => {
    fc.assert(
      fc.property(fc.constantFrom(...unitNames), fc.double({ min: -1e9, max: 1e9, noNaN: true }), (unit, value) => {
        expect(Math.abs(fromInterchange(toInterchange(value, unit), unit) - value)).toBeLessThanOrEqual(
          1e-12 * Math.abs(value) + 1e-9,
        );
        expect(Math.abs(toInterchange(fromInterchange(value, unit), unit) - value)).toBeLessThanOrEqual(
          1e-12 * Math.abs(value) + 1e-9,
        );
      }),
      { seed: 3, numRuns: 500 },
    );
  });

  test('order is kept: more of a unit is more of its quantity', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...unitNames),
        fc.integer({ min: -100000, max: 100000 }),
        fc.integer({ min: 1, max: 1000 }),
        (unit, value, more) => {
          expect(toInterchange(value + more, unit)).toBeGreaterThan(toInterchange(value, unit));
        },
      ),
      { seed: 4 },
    );
  });

  test('two units of one dimension convert into each other by way of the interchange unit', () => {
    const micronOf = (value: number, unit: UnitName) => fromInterchange(toInterchange(value, unit), 'micron');
    expect(micronOf(1, 'Torr')).toBeCloseTo(1000, 9);
    expect(micronOf(1, 'mTorr')).toBeCloseTo(1, 12);
    expect(micronOf(1, 'mbar')).toBeCloseTo(750.062, 3);
    expect(dimensionOf('Torr')).toBe(dimensionOf('micron'));
    expect(dimensionOf('in')).not.toBe(dimensionOf('ft'));
  });

  test('gauge pressure is no plain unit, and what is unknown is named in the error', () => {
    for (const name of ['psig', 'barg', 'kPag', 'inHgv', 'psi', 'inHg', 'microns', '', 'toString', '__proto__']) {
      expect(isUnitName(name)).toBe(false);
      expect(() => toInterchange(1, name as UnitName)).toThrow(expect.objectContaining({ code: 'unknown-unit' }));
      expect(() => fromInterchange(1, name as UnitName)).toThrow(expect.objectContaining({ code: 'unknown-unit' }));
    }
  });
});
