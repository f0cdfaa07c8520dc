import { describe, expect, test } from 'vitest';
import { jobFacts } from '../../src/facts/job-facts.ts';
import { lossFacts } from '../../src/facts/leak-loss.ts';
import { ruledOutFacts } from '../../src/facts/ruled-out.ts';
import { testLossFacts } from '../../src/facts/test-loss.ts';
import type { Facts } from '../../src/records/tables/facts.ts';
import { MICRON_PA } from './synthetic-log.ts';

const PSI_PA = 6894.757293168;
const job = { job_id: 'j', started_at: '2025-01-01T08:00:00Z', refrigerant: 'R-410A' };
const volume = {
  tested_volume_l: 5,
  tested_volume_low_l: 4.5,
  tested_volume_high_l: 5.5,
  tested_volume_basis: 'tested',
} as const satisfies Partial<Facts>;
/** 24 h at 500 psig. */
const nitrogen = (lowPa: number, highPa: number) => ({
  held_test_pa: 500 * PSI_PA + 101325,
  atmosphere_pa: 101325,
  held_line_k: 294.26,
  pressure_settled_s: 0,
  pressure_hold_end_s: 86400,
  pressure_drop_low_pa: lowPa,
  pressure_drop_high_pa: highPa,
});
const vacuum = (lowPaPerS: number, highPaPerS: number) => ({
  leak_low_pa_per_s: lowPaPerS,
  leak_high_pa_per_s: highPaPerS,
  smallest_leak_seen_pa_per_s: highPaPerS,
});
const found = (...facts: Partial<Facts>[]) => ruledOutFacts(Object.assign({}, volume, ...facts), job);

/**
 * Rise [Pa/s] in vacuum of the opening that loses a drop [Pa] in 24 h at 500 psig: over the ratios 34.60, 35.62 and 1267
 * of leak-carried-over (air to nitrogen), real gas 1.0074 (CoolProp 8.0).
 */
const riseOf = (dropPa: number, ratio: number) => ((dropPa / 86400) * 1.0074) / ratio;

describe('one test alone', () => {
  test('rules out its own band: pressure test', () => {
    const facts = { ...volume, ...nitrogen(-1000, 3000) };
    const { test_loss_high_kg_per_year: high = 0 } = testLossFacts(facts, job);
    const ruledOut = ruledOutFacts(facts, job);
    expect(ruledOut.ruled_out_by).toBe('pressure-test');
    expect(ruledOut.ruled_out_high_kg_per_year).toBeCloseTo(high, 12);
    // Ends 14 % apart by the sort of opening, ±10 % by the volume.
    expect(high / (ruledOut.ruled_out_low_kg_per_year ?? 0)).toBeCloseTo((1.1416 * 5.5) / 4.5, 2);
    expect(ruledOut).not.toHaveProperty('tests_disagree');
  });

  test('rules out its own band: rise test; 1 µm a minute in 5 L leaves kilograms a year', () => {
    const facts = { ...volume, ...vacuum(0, MICRON_PA / 60) };
    const ruledOut = ruledOutFacts(facts, job);
    expect(ruledOut.ruled_out_by).toBe('rise-test');
    expect(ruledOut.ruled_out_high_kg_per_year).toBe(lossFacts(facts, job).leak_loss_high_kg_per_year);
    expect(ruledOut.ruled_out_high_kg_per_year).toBeGreaterThan(3);
    expect(ruledOut.ruled_out_high_kg_per_year).toBeLessThan(3.5);
    expect(ruledOut).not.toHaveProperty('tests_disagree');
  });
});

describe('both tests', () => {
  test('the lesser of both for each sort of opening, and by which test', () => {
    const drop = nitrogen(-3000, 3000);
    const band = (ratio: number) => found(drop, vacuum(0, riseOf(3000, ratio)));
    // A rise below what even a capillary would show, above what even a molecular channel would, and between.
    expect(band(1400).ruled_out_by).toBe('rise-test');
    expect(band(30).ruled_out_by).toBe('pressure-test');
    expect(band(200).ruled_out_by).toBe('both');
    const [alone, steeper] = [found(drop), band(30)];
    expect(steeper).toEqual({ ...alone, tests_disagree: false });
    // Between, the rise bounds what is molecular or a hole, the pressure test a capillary.
    const between = band(200);
    const riseAlone = found(vacuum(0, riseOf(3000, 200)));
    expect(between.ruled_out_low_kg_per_year).toBe(riseAlone.ruled_out_low_kg_per_year);
    expect(between.ruled_out_high_kg_per_year).toBeCloseTo((alone.ruled_out_low_kg_per_year ?? 0) * (5.5 / 4.5), 9);
  });

  test('never more than either alone, and the more either sees, the less is ruled out', () => {
    for (const rise of [1e-6, 1e-5, 1e-4, 1e-3, 1e-2]) {
      for (const drop of [10, 100, 1000, 10_000, 100_000]) {
        const high = (...facts: Partial<Facts>[]) => found(...facts).ruled_out_high_kg_per_year ?? Number.NaN;
        const both = high(nitrogen(0, drop), vacuum(0, rise));
        expect(both).toBeLessThanOrEqual(high(nitrogen(0, drop)));
        expect(both).toBeLessThanOrEqual(high(vacuum(0, rise)));
        expect(high(nitrogen(0, 2 * drop), vacuum(0, rise))).toBeGreaterThanOrEqual(both);
        expect(high(nitrogen(0, drop), vacuum(0, 2 * rise))).toBeGreaterThanOrEqual(both);
        expect(high(nitrogen(0, 2 * drop), vacuum(0, 2 * rise))).toBeCloseTo(2 * both, 9);
      }
    }
  });

  test('by the truth of each sort: an opening inside both intervals is never ruled out', () => {
    for (const ratio of [34.6, 35.62, 1267]) {
      const [dropPa, risePaPerS] = [3000, riseOf(3000, ratio)];
      // The true loss: 1.0074 × 3000 Pa in 24 h from 5 L of nitrogen, × 0.2497, 0.2603 and 0.2280 (leak-carried-over), at
      // 939.8 kg a year for 1 Pa·m³/s (leak-mass-per-year).
      const carried = { 34.6: 0.2497, 35.62: 0.2603, 1267: 0.228 }[ratio] ?? Number.NaN;
      const lossKgPerYear = ((0.005 * 3000 * 1.0074) / 86400) * carried * 939.8;
      const both = found(nitrogen(0.9 * dropPa, 1.1 * dropPa), vacuum(0.9 * risePaPerS, 1.1 * risePaPerS));
      expect(both.ruled_out_high_kg_per_year).toBeGreaterThan(lossKgPerYear);
      expect(both.tests_disagree).toBe(false);
    }
  });
});

describe('tests_disagree', () => {
  test('where one shows more than the other leaves, whatever the opening is like', () => {
    // A drop of 7000 Pa and more, and a rise too small for it even through a capillary; then through some openings.
    expect(found(nitrogen(7000, 9000), vacuum(0, riseOf(7000, 1400))).tests_disagree).toBe(true);
    expect(found(nitrogen(7000, 9000), vacuum(0, riseOf(7000, 200))).tests_disagree).toBe(false);
    // The other way round.
    expect(found(nitrogen(-500, 500), vacuum(riseOf(500, 30), 1)).tests_disagree).toBe(true);
    expect(found(nitrogen(-500, 500), vacuum(riseOf(500, 200), 1)).tests_disagree).toBe(false);
    expect(found(nitrogen(-500, 500), vacuum(0, 1e-6)).tests_disagree).toBe(false);
  });

  test('then nothing is ruled out', () => {
    expect(found(nitrogen(7000, 9000), vacuum(0, riseOf(7000, 1400)))).toEqual({ tests_disagree: true });
    expect(found(nitrogen(-500, 500), vacuum(riseOf(500, 30), 1))).toEqual({ tests_disagree: true });
  });

  test('an opening for which they do is none that the leak can have', () => {
    // Through a channel or a hole such a drop is more than the rise leaves room for: it is a capillary, and loses no less.
    const drop = nitrogen(7000, 9000);
    const joint = found(drop, vacuum(0, riseOf(7000, 200)));
    const facts = { ...volume, ...drop };
    expect(joint.ruled_out_low_kg_per_year).toBeGreaterThan(testLossFacts(facts, job).test_loss_low_kg_per_year ?? 0);
  });

  test('no leak shown is no disagreement, however tight the other', () => {
    expect(found(nitrogen(-10, -5), vacuum(0, 0)).tests_disagree).toBe(false);
    expect(found(nitrogen(-10, 0), vacuum(0, 0)).tests_disagree).toBe(false);
  });
});

describe('a rise that left the range of the gauge', () => {
  const over = { ...vacuum(riseOf(500, 30), 1e-9), isolation_over: true };

  test('has no upper end, but a lower one', () => {
    expect(found(nitrogen(-500, 500), over)).toEqual({ tests_disagree: true });
    expect(found(nitrogen(7000, 9000), over).tests_disagree).toBe(false);
    expect(found(over)).toEqual({});
  });
});

test('a drop below 0 rules out no more than none', () => {
  expect(found(nitrogen(-9000, -3000))).toEqual(found(nitrogen(-3000, 3000)));
});

test('nothing without volume, refrigerant or either test', () => {
  const both = { ...volume, ...nitrogen(0, 1000), ...vacuum(0, 1e-4) };
  expect(ruledOutFacts(both, job).ruled_out_by).toBeDefined();
  expect(ruledOutFacts({ ...both, tested_volume_l: undefined }, job)).toEqual({});
  expect(ruledOutFacts(both, { ...job, refrigerant: undefined })).toEqual({});
  expect(ruledOutFacts(both, { ...job, refrigerant: 'R-9999' })).toEqual({});
  expect(ruledOutFacts(both, undefined)).toEqual({});
  expect(ruledOutFacts(volume, job)).toEqual({});
  expect(ruledOutFacts({ ...volume, ...nitrogen(0, 1000), pressure_drop_high_pa: undefined }, job)).toEqual({});
});

test('jobFacts gives the losses of each test and what both rule out', () => {
  const measured = { ...volume, ...nitrogen(0, 1000), pressure_drop_pa: 500, ...vacuum(0, 1e-4) };
  const facts = jobFacts({ jobId: 'j', job, lineSets: [], weighings: [] }, measured);
  expect(facts).toMatchObject({
    ...measured,
    ...lossFacts(measured, job),
    ...testLossFacts(measured, job),
    ...ruledOutFacts(measured, job),
  });
  for (const name of ['leak_loss_high', 'test_loss_high', 'ruled_out_high'] as const) {
    expect(facts[`${name}_kg_per_year`]).toBeGreaterThan(0);
  }
});
