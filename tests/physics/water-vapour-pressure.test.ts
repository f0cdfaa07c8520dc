import { describe, expect, test } from 'vitest';
import { waterVapourPressure } from '../../src/physics/index.ts';
import { referenceRows } from '../reference-rows.ts';

describe('waterVapourPressure', () => {
  test.each(referenceRows('iapws-r14-08'))('reproduces $pressure_pa Pa over ice at $temperature_k K, R14-08', (row) => {
    const ratio = waterVapourPressure(row.temperature_k) / row.pressure_pa;
    expect(Math.abs(ratio - 1)).toBeLessThanOrEqual(row.tolerance_ratio);
  });

  test.each(referenceRows('iapws-sr1-86'))(
    'reproduces $pressure_pa Pa over liquid at $temperature_k K, SR1-86',
    (row) => {
      const ratio = waterVapourPressure(row.temperature_k) / row.pressure_pa;
      expect(Math.abs(ratio - 1)).toBeLessThanOrEqual(row.tolerance_ratio);
    },
  );

  test('rises with temperature and is continuous at the triple point within 0.00002 %', () => {
    let before = 0;
    for (let temperatureK = 200; temperatureK < 400; temperatureK += 0.5) {
      expect(waterVapourPressure(temperatureK)).toBeGreaterThan(before);
      before = waterVapourPressure(temperatureK);
    }
    expect(Math.abs(waterVapourPressure(273.16 - 1e-9) / waterVapourPressure(273.16) - 1)).toBeLessThan(2e-7);
  });

  test('holds at both ends and refuses just outside', () => {
    expect(waterVapourPressure(50)).toBeGreaterThan(0);
    expect(waterVapourPressure(647.096)).toBeCloseTo(22.064e6, 0);
    expect(() => waterVapourPressure(49.99)).toThrow(
      'temperature of water [K] out of range: must be 50 to 647.096, received 49.99',
    );
    expect(() => waterVapourPressure(647.1)).toThrow(/out of range/);
    expect(() => waterVapourPressure(Number.NaN)).toThrow(/out of range/);
  });
});
