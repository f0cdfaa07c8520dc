import { describe, expect, test } from 'vitest';
import { leakFromRise, molarLeakFromRise } from '../../src/physics/index.ts';
import { referenceRows } from '../reference-rows.ts';

describe('leakFromRise', () => {
  test.each(referenceRows('vacuum-rate-of-rise'))(
    'reproduces $leak_pa_m3_per_s Pa·m³/s, pressure-rise method',
    (row) => {
      const leak = leakFromRise(row.volume_l / 1000, row.rise_pa / row.duration_s);
      expect(Math.abs(leak / row.leak_pa_m3_per_s - 1)).toBeLessThanOrEqual(row.tolerance_ratio);
    },
  );
});

describe('molarLeakFromRise', () => {
  const example = referenceRows('40-cfr-1065-644').map((row) => ({
    options: {
      volumeM3: row.volume_m3,
      startPa: row.start_pa,
      endPa: row.end_pa,
      startK: row.start_k,
      endK: row.end_k,
      durationS: row.duration_s,
    },
    leak: row.leak_mol_per_s,
    tolerance: row.tolerance_mol_per_s,
  }));

  test.each(example)('reproduces $leak mol/s, 40 CFR 1065.644', ({ options, leak, tolerance }) => {
    expect(Math.abs(molarLeakFromRise(options) - leak)).toBeLessThanOrEqual(tolerance);
  });

  test('is the isothermal leak divided by R·T', () => {
    const options = { volumeM3: 0.004, startPa: 30, endPa: 60, startK: 293.15, endK: 293.15, durationS: 600 };
    expect(molarLeakFromRise(options) * 8.314472 * 293.15).toBeCloseTo(leakFromRise(0.004, 30 / 600), 15);
  });

  test('sees no leak in a gas that only warms', () => {
    const options = {
      volumeM3: 0.004,
      startPa: 30,
      endPa: (30 * 303.15) / 293.15,
      startK: 293.15,
      endK: 303.15,
      durationS: 600,
    };
    expect(Math.abs(molarLeakFromRise(options))).toBeLessThan(1e-18);
  });
});
