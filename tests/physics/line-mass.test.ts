import { expect, test } from 'vitest';
import { copperTube } from '../../src/physics/copper-tube.ts';
import { lineMass } from '../../src/physics/line-mass.ts';
import { referenceRows } from '../reference-rows.ts';

const INCH_M = 0.0254;
const OZ_PER_FT_KG_PER_M = 0.028349523125 / 0.3048;

test.each(referenceRows('line-set-rows'))(
  'lineMass reproduces $mass_oz_per_ft oz/ft: $outer_diameter_in in at $density_kg_per_m3 kg/m³, line-set rows',
  (row) => {
    const volume = copperTube(row.outer_diameter_in * INCH_M)?.innerVolumeM3PerM ?? Number.NaN;
    const mass = lineMass(volume, row.density_kg_per_m3) / OZ_PER_FT_KG_PER_M;
    expect(Math.abs(mass - row.mass_oz_per_ft)).toBeLessThanOrEqual(row.tolerance_oz_per_ft);
  },
);
