import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  absolutePressure,
  fromGauge,
  type GaugePressure,
  gaugePressure,
  gaugeUnitNames,
  isGaugeUnitName,
  toGauge,
} from '../../src/units/gauge-pressure.ts';
import { fromInterchange, isUnitName } from '../../src/units/unit.ts';

const atmospheresPa = fc.double({ min: 30_000, max: 115_000, noNaN: true });

describe('gauge pressure', () => {
  // Printed by equipment makers: 23 000 µm for 29.01 inHg of vacuum, 19 barg for 275 psig; common practice, no source:
  // 500 psig are 514.7 psia at sea level, and 5000 ft have some 12.2 psia.
  test.each([
    [29.01, 'inHgv', 101_325, 23_000, 'micron', 150],
    [0, 'inHgv', 101_325, 760_000, 'micron', 1],
    [19, 'barg', 101_325, 275 + 14.7, 'psia', 1],
    [500, 'psig', 101_325, 514.7, 'psia', 0.01],
    [0, 'psig', 84_307, 12.2, 'psia', 0.05],
    [-50, 'kPag', 100_000, 500, 'mbar', 1e-9],
  ] as const)('%d %s under %d Pa are %d %s', (reading, unit, atmospherePa, expected, absoluteUnit, tolerance) => {
    const pressurePa = absolutePressure(toGauge(reading, unit), atmospherePa);
    expect(Math.abs(fromInterchange(pressurePa, absoluteUnit) - expected)).toBeLessThanOrEqual(tolerance);
  });

  test('absolute → gauge → reading → gauge → absolute is the same pressure, for every gauge unit', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...gaugeUnitNames),
        fc.double({ min: 1, max: 1e7, noNaN: true }),
        atmospheresPa,
        (unit, pressurePa, atmospherePa) => {
          const reading = fromGauge(gaugePressure(pressurePa, atmospherePa), unit);
          const backPa = absolutePressure(toGauge(reading, unit), atmospherePa);
          expect(Math.abs(backPa - pressurePa)).toBeLessThanOrEqual(1e-8);
          expect(fromGauge(gaugePressure(backPa, atmospherePa), unit)).toBeCloseTo(reading, 9);
        },
      ),
      { seed: 21, numRuns: 500 },
    );
  });

  test('more vacuum is less pressure; more of any other gauge unit is more', () => {
    for (const unit of gaugeUnitNames) {
      const rises = toGauge(2, unit).gaugePa > toGauge(1, unit).gaugePa;
      expect([unit, rises]).toEqual([unit, unit !== 'inHgv']);
    }
  });

  test('a perfect vacuum is the bound, just inside and just outside', () => {
    expect(absolutePressure({ gaugePa: -84_307 }, 84_307)).toBe(0);
    expect(() => absolutePressure({ gaugePa: -84_307.1 }, 84_307)).toThrow(
      'gauge pressure [Pa] out of range: must be at least -84307 (a perfect vacuum under this atmosphere), received -84307.1',
    );
    // What a gauge can show at sea level it cannot show at 5000 ft.
    expect(absolutePressure(toGauge(29, 'inHgv'), 101_325)).toBeGreaterThan(0);
    expect(() => absolutePressure(toGauge(29, 'inHgv'), 84_307)).toThrow(/perfect vacuum/);
    // 101325 Pa are 14.69595 psi and 29.9213 inHg: what was read is answered in its own unit, and the bound can be.
    for (const [reading, unit, says, bound] of [
      [-20, 'psig', 'at least -14.695', -14.695],
      [30.5, 'inHgv', 'at most 29.921', 29.921],
      [-2, 'barg', 'at least -1.0132', -1.0132],
      [-101.4, 'kPag', 'at least -101.32', -101.32],
    ] as const) {
      expect(() => absolutePressure(toGauge(reading, unit), 101_325)).toThrow(
        `gauge pressure [${unit}] out of range: must be ${says} (a perfect vacuum under this atmosphere), received ${reading}`,
      );
      expect(absolutePressure(toGauge(bound, unit), 101_325)).toBeGreaterThan(0);
    }
    expect(() => gaugePressure(-0.1, 101_325)).toThrow('pressure [Pa] out of range: must be at least 0, received -0.1');
  });

  test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('an atmosphere of %d Pa is none', (atmospherePa) => {
    expect(() => absolutePressure({ gaugePa: 0 }, atmospherePa)).toThrow(/^atmosphere \[Pa\] out of range/);
    expect(() => gaugePressure(101_325, atmospherePa)).toThrow(/^atmosphere \[Pa\] out of range/);
  });

  test('what is no number is refused, not passed on', () => {
    expect(() => absolutePressure({ gaugePa: Number.NaN }, 101_325)).toThrow(/out of range/);
    expect(() => gaugePressure(Number.NaN, 101_325)).toThrow(/out of range/);
  });

  test('the types keep gauge and absolute apart', () => {
    const gauge: GaugePressure = toGauge(100, 'psig');
    // @ts-expect-error a gauge pressure is no number, and so never an absolute pressure
    const pressurePa: number = gauge;
    // @ts-expect-error a number is no gauge pressure
    expect(() => absolutePressure(101_325, 101_325)).toThrow(/out of range/);
    expect(typeof pressurePa).toBe('object');
  });

  test('no unit is both gauge and absolute', () => {
    expect(gaugeUnitNames.filter(isUnitName)).toEqual([]);
    expect(['psia', 'bar', 'inHga', 'toString', ''].filter(isGaugeUnitName)).toEqual([]);
  });
});
