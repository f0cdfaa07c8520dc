import { describe, expect, test } from 'vitest';
import { nitrogenDensity, nitrogenPressureAfter } from '../../src/physics/index.ts';
import { referenceRows } from '../reference-rows.ts';

const PSI_PA = 6894.757293168;
const kelvin = (fahrenheit: number) => (fahrenheit + 459.67) / 1.8;

describe('nitrogenDensity', () => {
  test.each(referenceRows('coolprop-nitrogen'))(
    'reproduces CoolProp 8.0 at $temperature_c °C and $pressure_pa Pa',
    (row) => {
      const density = nitrogenDensity(row.temperature_c + 273.15, row.pressure_pa);
      expect(Math.abs(density / row.density_kg_per_m3 - 1)).toBeLessThan(1e-8);
      const ideal = (row.pressure_pa * 0.02801348) / (8.31451 * (row.temperature_c + 273.15));
      expect(Math.abs(ideal / density / row.compressibility - 1)).toBeLessThan(1e-8);
    },
  );

  test.each(referenceRows('independent-nitrogen'))(
    'reproduces the independent program at $temperature_k K and $pressure_pa Pa',
    (row) => {
      const density = nitrogenDensity(row.temperature_k, row.pressure_pa);
      expect(Math.abs(density / row.density_kg_per_m3 - 1)).toBeLessThan(1e-9);
    },
  );

  test('is given at the limits and refused outside', () => {
    expect(nitrogenDensity(126.192, 1e5)).toBeGreaterThan(2);
    expect(nitrogenDensity(1000, 1e5)).toBeLessThan(0.4);
    expect(() => nitrogenDensity(126.191, 1e5)).toThrow(
      'temperature of nitrogen gas [K] out of range: must be 126.192 (critical point) to 1000, received 126.191',
    );
    expect(() => nitrogenDensity(1000.1, 1e5)).toThrow(/out of range/);
    expect(() => nitrogenDensity(300, 0)).toThrow(/above 0/);
    expect(() => nitrogenDensity(300, 2.21e9)).toThrow(/out of range/);
    expect(() => nitrogenDensity(Number.NaN, 1e5)).toThrow(/out of range/);
  });
});

describe('nitrogenPressureAfter', () => {
  test('600 psig at 70 °F is 638.31 psig at 100 °F (CoolProp 8.0), not the 634.82 of an ideal gas', () => {
    const after = nitrogenPressureAfter({ startPa: 614.696 * PSI_PA, startK: kelvin(70), endK: kelvin(100) });
    expect(Math.abs(after / PSI_PA - 14.696 - 638.31)).toBeLessThan(0.005);
  });

  test.each(referenceRows('nitrogen-compensation'))(
    'as an ideal gas, $start_psig psig, $start_f → $end_f °F gives $end_psig psig, nitrogen compensation',
    (row) => {
      const startPa = (row.start_psig + row.atmosphere_psia) * PSI_PA;
      const [startK, endK] = [kelvin(row.start_f), kelvin(row.end_f)];
      const endPsig = nitrogenPressureAfter({ startPa, startK, endK, gas: 'ideal' }) / PSI_PA - row.atmosphere_psia;
      expect(Math.abs(endPsig - row.end_psig)).toBeLessThanOrEqual(row.tolerance_psi);
    },
  );

  test.each(referenceRows('nitrogen-compensation'))(
    'real gas moves more than the ideal one, by at most 11 %: $start_psig psig, $start_f → $end_f °F',
    (row) => {
      const startPa = (row.start_psig + row.atmosphere_psia) * PSI_PA;
      const moved = { startPa, startK: kelvin(row.start_f), endK: kelvin(row.end_f) };
      const ideal = nitrogenPressureAfter({ ...moved, gas: 'ideal' });
      const ratio = (nitrogenPressureAfter(moved) - startPa) / (ideal - startPa);
      expect(ratio).toBeGreaterThan(1);
      expect(ratio).toBeLessThan(1.11);
    },
  );

  test('comes back, and stays where the temperature stays', () => {
    const there = nitrogenPressureAfter({ startPa: 3e6, startK: 290, endK: 310 });
    expect(nitrogenPressureAfter({ startPa: there, startK: 310, endK: 290 }) / 3e6).toBeCloseTo(1, 12);
    expect(nitrogenPressureAfter({ startPa: 3e6, startK: 290, endK: 290 }) / 3e6).toBeCloseTo(1, 12);
  });

  test.each(['real', 'ideal'] as const)('%s: refused outside the same limits', (gas) => {
    const tight = { startPa: 3e6, startK: 290, endK: 290, gas };
    for (const refused of [{ startK: 126.191 }, { endK: 126.191 }, { startK: 1000.1 }, { endK: 1000.1 }]) {
      expect(() => nitrogenPressureAfter({ ...tight, ...refused })).toThrow(/temperature of nitrogen gas/);
    }
    for (const startPa of [0, -1, 2.21e9, Number.NaN]) {
      expect(() => nitrogenPressureAfter({ ...tight, startPa })).toThrow(/pressure of nitrogen gas .* above 0/);
    }
    expect(nitrogenPressureAfter({ ...tight, startK: 1000, endK: 126.192 })).toBeGreaterThan(0);
  });
});
