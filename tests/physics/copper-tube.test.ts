import { describe, expect, test } from 'vitest';
import { copperTube, copperTubes } from '../../src/physics/index.ts';
import { referenceRows } from '../reference-rows.ts';

const INCH_M = 0.0254;
const ML_PER_FT_M3_PER_M = 1e-6 / 0.3048;
const rows = referenceRows('astm-b280');

describe('copperTube', () => {
  test('has a row for every size', () => expect(copperTubes).toHaveLength(rows.length));

  test.each(rows)('reproduces $outer_diameter_in in, ASTM B280', (row) => {
    const tube = copperTube(row.outer_diameter_in * INCH_M);
    expect(Math.abs((tube?.boreM ?? 0) / INCH_M - row.bore_in)).toBeLessThanOrEqual(row.bore_tolerance_in);
    expect(
      Math.abs((tube?.innerVolumeM3PerM ?? 0) / ML_PER_FT_M3_PER_M - row.inner_volume_ml_per_ft),
    ).toBeLessThanOrEqual(row.volume_tolerance_ml_per_ft);
  });

  test('takes diameters as records round them', () => {
    expect(copperTube(0.00952)).toBe(copperTube(0.009525));
    expect(copperTube(0.0159)).toBe(copperTube(0.015875));
    expect(copperTube(0.0222)).toBe(copperTube(0.022225));
    expect(copperTube(0.0349)).toBe(copperTube(0.034925));
  });

  test('knows no other size: just outside a nominal one, metric ones, nonsense', () => {
    expect(copperTube(0.00635 + 0.00013)).toBeUndefined();
    expect(copperTube(0.01)).toBeUndefined();
    expect(copperTube(Number.NaN)).toBeUndefined();
  });
});
