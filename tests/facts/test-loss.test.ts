import { describe, expect, test } from 'vitest';
import { standingVapour } from '../../src/facts/standing-vapour.ts';
import { mostDrop, testLossFacts } from '../../src/facts/test-loss.ts';
import type { Facts } from '../../src/records/tables/facts.ts';
import { referenceRows } from '../reference-rows.ts';

const PSI_PA = 6894.757293168;
/** 24 h at 500 psig and 70 °F, exactly 5 L: a drop of 1 psi, give or take half of it. */
const facts = {
  held_test_pa: 500 * PSI_PA + 101325,
  atmosphere_pa: 101325,
  held_line_k: 294.26,
  pressure_settled_s: 600,
  pressure_hold_end_s: 600 + 86400,
  pressure_drop_pa: PSI_PA,
  pressure_drop_low_pa: 0.5 * PSI_PA,
  pressure_drop_high_pa: 1.5 * PSI_PA,
  smallest_drop_seen_pa: 2 * PSI_PA,
  tested_volume_l: 5,
  tested_volume_low_l: 5,
  tested_volume_high_l: 5,
  tested_volume_basis: 'tested',
} as const satisfies Partial<Facts>;
const job = { job_id: 'j', started_at: '2025-01-01T08:00:00Z', refrigerant: 'R-410A' };
/** (∂ρ/∂p)_T RT/M of nitrogen at 294.26 K and 3548704 Pa: CoolProp 8.0. */
const realGas = 1.007433;

describe('testLossFacts', () => {
  test('1 psi in 24 h from 5 L is 4.0e-3 mbar·L/s (computed outside the project, Q = V Δp/Δt, two figures)', () => {
    const found = testLossFacts(facts, job);
    expect(((found.test_leak_pa_m3_per_s ?? 0) / 0.1).toPrecision(2)).toBe('0.0040');
    expect(found.test_leak_pa_m3_per_s).toBeCloseTo((0.005 * PSI_PA * realGas) / 86400, 9);
    expect(found.smallest_test_leak_seen_pa_m3_per_s).toBeCloseTo(2 * (found.test_leak_pa_m3_per_s ?? Number.NaN), 12);
  });

  test('and up to 97 g a year of R-410A, at least 85, table leak-carried-over, within 0.5 %', () => {
    const [row] = referenceRows('leak-carried-over', 'nitrogen-test.csv');
    const found = testLossFacts(facts, job);
    const [low, high] = [row.low_kg_per_year * realGas, row.high_kg_per_year * realGas];
    expect(Math.abs((found.test_loss_low_kg_per_year ?? 0) / (0.5 * low) - 1)).toBeLessThan(0.005);
    expect(Math.abs((found.test_loss_high_kg_per_year ?? 0) / (1.5 * high) - 1)).toBeLessThan(0.005);
    expect(Math.abs((found.smallest_test_loss_low_kg_per_year ?? 0) / (2 * low) - 1)).toBeLessThan(0.005);
    expect(Math.abs((found.smallest_test_loss_high_kg_per_year ?? 0) / (2 * high) - 1)).toBeLessThan(0.005);
  });

  test('the spread of the volume widens the band, not the leak', () => {
    const [narrow, wide] = [
      testLossFacts(facts, job),
      testLossFacts({ ...facts, tested_volume_low_l: 4, tested_volume_high_l: 7 }, job),
    ];
    expect(wide.test_leak_pa_m3_per_s).toBe(narrow.test_leak_pa_m3_per_s);
    expect(wide.test_loss_low_kg_per_year).toBeCloseTo(0.8 * (narrow.test_loss_low_kg_per_year ?? Number.NaN), 12);
    expect(wide.test_loss_high_kg_per_year).toBeCloseTo(1.4 * (narrow.test_loss_high_kg_per_year ?? Number.NaN), 12);
  });

  test('a larger drop, a shorter time, a larger volume and less pressure in the test each mean more', () => {
    const high = (change: Partial<Facts>) =>
      testLossFacts({ ...facts, ...change }, job).test_loss_high_kg_per_year ?? 0;
    const once = high({});
    expect(high({ pressure_drop_high_pa: 2 * PSI_PA })).toBeGreaterThan(once);
    expect(high({ pressure_hold_end_s: 3600 })).toBeGreaterThan(once);
    expect(high({ tested_volume_l: 6, tested_volume_high_l: 6 })).toBeGreaterThan(once);
    expect(high({ held_test_pa: 2e6 })).toBeGreaterThan(once);
  });

  test('the air around is that of the test, else that of the record, else of the sea', () => {
    const tested = testLossFacts({ ...facts, atmosphere_pa: 84000 }, { ...job, barometer_pa: 90000 });
    const recorded = testLossFacts({ ...facts, atmosphere_pa: undefined }, { ...job, barometer_pa: 84000 });
    expect(recorded).toEqual(tested);
    // The high end is a sonic hole, which does not feel what is around; the low end is a capillary.
    expect(tested.test_loss_low_kg_per_year).toBeGreaterThan(testLossFacts(facts, job).test_loss_low_kg_per_year ?? 0);
    expect(tested.test_loss_high_kg_per_year).toBe(testLossFacts(facts, job).test_loss_high_kg_per_year);
  });

  test('an interval from below 0 loses from 0; one that lies below 0 rules out as much as one around 0', () => {
    const found = (low: number, high: number) =>
      testLossFacts({ ...facts, pressure_drop_low_pa: low, pressure_drop_high_pa: high }, job);
    expect(found(-300, 500).test_loss_low_kg_per_year).toBe(0);
    expect(found(-300, 500).test_loss_high_kg_per_year).toBe(found(100, 500).test_loss_high_kg_per_year);
    expect(found(-5000, -4000).test_loss_low_kg_per_year).toBe(0);
    expect(found(-5000, -4000).test_loss_high_kg_per_year).toBe(found(-500, 500).test_loss_high_kg_per_year);
    expect(mostDrop(-300, 500)).toBe(500);
    expect(mostDrop(-900, 100)).toBe(500);
    expect(testLossFacts({ ...facts, pressure_drop_pa: -PSI_PA }, job).test_leak_pa_m3_per_s).toBeLessThan(0);
  });

  test('refrigerant unknown: the leak is there, the loss is not', () => {
    const { test_leak_pa_m3_per_s, smallest_test_leak_seen_pa_m3_per_s } = testLossFacts(facts, job);
    const leaks = { test_leak_pa_m3_per_s, smallest_test_leak_seen_pa_m3_per_s };
    expect(testLossFacts(facts, { ...job, refrigerant: undefined })).toEqual(leaks);
    expect(testLossFacts(facts, { ...job, refrigerant: 'R-9999' })).toEqual(leaks);
    expect(testLossFacts(facts, undefined)).toEqual(leaks);
  });

  test('each figure rests on its own fact', () => {
    const without = (...names: (keyof Facts)[]) =>
      Object.keys(testLossFacts({ ...facts, ...Object.fromEntries(names.map((name) => [name, undefined])) }, job));
    expect(without('pressure_drop_pa', 'pressure_drop_low_pa', 'pressure_drop_high_pa')).toEqual([
      'smallest_test_leak_seen_pa_m3_per_s',
      'smallest_test_loss_low_kg_per_year',
      'smallest_test_loss_high_kg_per_year',
    ]);
    expect(without('smallest_drop_seen_pa')).toEqual([
      'test_leak_pa_m3_per_s',
      'test_loss_low_kg_per_year',
      'test_loss_high_kg_per_year',
    ]);
    for (const needed of [
      'tested_volume_l',
      'held_test_pa',
      'pressure_settled_s',
      'pressure_hold_end_s',
    ] as const satisfies (keyof Facts)[]) {
      expect(without(needed)).toEqual([]);
    }
    // 70 °F and the sea level stand in.
    expect(without('held_line_k', 'atmosphere_pa')).toHaveLength(6);
    expect(testLossFacts({ ...facts, held_line_k: undefined, atmosphere_pa: undefined }, job)).toEqual(
      testLossFacts(facts, job),
    );
  });

  test('nothing where nothing was held above the atmosphere, or for no time', () => {
    expect(testLossFacts({ ...facts, held_test_pa: 101325 }, job)).toEqual({});
    expect(testLossFacts({ ...facts, held_test_pa: 0 }, job)).toEqual({});
    expect(testLossFacts({ ...facts, pressure_hold_end_s: 600 }, job)).toEqual({});
    expect(testLossFacts({ ...facts, tested_volume_l: 0 }, job)).toEqual({});
    expect(testLossFacts({}, job)).toEqual({});
  });

  test('never throws for any pressure and temperature that the columns take', () => {
    for (const held_line_k of [150, 200, 273.15, 400]) {
      for (const held_test_pa of [101326, 1e6, 1e7, 3e7]) {
        const found = testLossFacts({ ...facts, held_line_k, held_test_pa }, job);
        expect(found.test_leak_pa_m3_per_s).toBeGreaterThan(0);
        expect(found.test_loss_high_kg_per_year).toBeLessThan(1e9);
      }
    }
  });
});

test('a system of R-410A stands at 200.6 psig at 70 °F, within 0.5 psi (pressure-temperature charts, from memory)', () => {
  expect(Math.abs(((standingVapour('R-410A')?.operatingPa ?? 0) - 101325) / PSI_PA - 200.6)).toBeLessThan(0.5);
  expect(standingVapour('R-9999')).toBeUndefined();
});
